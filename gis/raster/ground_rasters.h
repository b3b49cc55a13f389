#pragma once
// Season maps as cloud-optimised GeoTIFFs, one file a measure: Float32, tiled, DEFLATE, with
// overviews, nodata outside pastures, unit and any other words in the metadata. Filled pasture by
// pasture, so that a whole ranch needs no more memory than one of them; finished beside its name
// and renamed. A raster's sum times the cell's hectares is the mass of its maps to 1e-6.

#include "core/base/result.h"
#include "core/deposit/pasture_ground.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace haylane {

struct GroundRasterSpec {
    std::filesystem::path file;
    std::string description;  // of the band: "P2O5, 2026-27"
    std::string unit;         // "kg/ha"
    std::vector<std::pair<std::string, std::string>> metadata;
};

class GroundRaster {
  public:
    // `extent` covers every grid that will be added: same cell, aligned to its multiples. Errors:
    // nothing_to_write for an empty one, file_not_written.
    [[nodiscard]] static Result<GroundRaster> begin(GroundRasterSpec spec, const Grid& extent,
                                                    const Frame& frame);
    GroundRaster(GroundRaster&&) noexcept;
    GroundRaster& operator=(GroundRaster&&) noexcept;
    GroundRaster(const GroundRaster&) = delete;
    GroundRaster& operator=(const GroundRaster&) = delete;
    ~GroundRaster();  // an unfinished raster leaves no file behind

    // Amounts a cell, times `factor`, where the mask is set. Error: file_not_written.
    [[nodiscard]] Result<void> add(const Raster<std::uint8_t>& mask, const Raster<double>& values,
                                   double factor);
    // Writes overviews and the cloud-optimised layout. Error: file_not_written.
    [[nodiscard]] Result<void> finish();

  private:
    struct Impl;
    explicit GroundRaster(std::unique_ptr<Impl> impl);
    std::unique_ptr<Impl> impl_;
};

// The least grid that covers the boxes of all pastures, as pasture_ground lays its cells.
[[nodiscard]] Grid ranch_extent(const Ranch& ranch);

}  // namespace haylane
