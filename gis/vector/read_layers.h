#pragma once
// Reads every layer of a GeoJSON, GeoPackage, Shapefile, KML or GPX file: all attributes as text,
// all shapes in WGS 84 degrees. A feature whose shape cannot be used keeps its cells and is named
// in the problems; a file that cannot be used at all is an error.

#include "core/base/result.h"
#include "gis/vector/layer.h"

#include <filesystem>
#include <vector>

namespace haylane {

struct VectorOptions {
    std::size_t most_features = 200000;  // per layer
    bool waypoints = false;              // GPX: take waypoints; else tracks and routes
    bool geojson = false;                // it is GeoJSON, whatever its ending says
};

// A GPX file gives one layer named by its stem; other files one per layer, named by the layer
// (GeoPackage, KML) or the stem (GeoJSON, Shapefile). Codes: file_missing, file_unreadable,
// broken_json, crs_missing, crs_unreadable, crs_mismatch, coordinates_out_of_range (when no feature
// of a layer is on the earth), those of scan_text_file and those of read_gpx_layer.
[[nodiscard]] Result<std::vector<SourceLayer>> read_layers(const std::filesystem::path& file,
                                                           const VectorOptions& options = {});

}  // namespace haylane
