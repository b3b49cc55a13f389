#pragma once
// The rasters of one account, open while pastures come in one by one. For use inside app/session.

#include "app/session/ground_ranch.h"
#include "gis/raster/ground_rasters.h"

namespace haylane {

class GroundFiles {
  public:
    [[nodiscard]] static Result<GroundFiles> begin(const OpenRanch& open,
                                                   const AccountContext& context,
                                                   const std::vector<SeasonMeasure>& measures,
                                                   const std::filesystem::path& folder);
    [[nodiscard]] Result<void> add(const PastureAccount& account, const PastureMaps& maps);
    // Finishes them; gives the files.
    [[nodiscard]] Result<std::vector<std::filesystem::path>> finish();

  private:
    struct One {
        std::filesystem::path file;
        GroundRaster raster;
    };
    std::vector<SeasonMeasure> measures_;
    std::vector<One> loads_;  // by measure
    std::optional<One> change_;
    std::optional<One> chance_;
};

// Block means of amounts a cell, as amounts a m2; NaN where no cell of the mask is.
[[nodiscard]] Raster<float> thinned(const Raster<std::uint8_t>& mask,
                                    const Raster<double>& per_cell, int most_cells_a_side);

}  // namespace haylane
