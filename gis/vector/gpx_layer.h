#pragma once
// The tracks and routes of a GPX file, or its waypoints, as a layer: one row each. Columns are
// name, cmt, desc, src, type and number (tracks) or sym, ele and time (waypoints; time as its day,
// UTC), always there, then whatever else the file gives. A track's shape is its segments of two
// points or more.

#include "core/base/result.h"
#include "gis/vector/layer.h"

#include <cstddef>
#include <filesystem>

namespace haylane {

struct GpxLayerOptions {
    bool waypoints = false;  // take waypoints; else tracks and routes
    std::size_t most_rows = 200000;
};

// Errors: those of read_gpx; too_many_features.
[[nodiscard]] Result<SourceLayer> read_gpx_layer(const std::filesystem::path& file,
                                                 const GpxLayerOptions& options = {});

}  // namespace haylane
