#pragma once
// How sure a pasture's figures are: many seeded draws of the parameters (parameter_ranges.h), and
// between which values the middle 80 of 100 lie. What does not change from draw to draw is made
// once (load_fields.h). Results depend on seed and draws only.

#include "core/base/progress.h"
#include "core/season/load_fields.h"

#include <array>
#include <optional>

namespace haylane {

struct UncertaintyBand {
    double p10 = 0.0;
    double p50 = 0.0;
    double p90 = 0.0;
};

// Of one nutrient; a m2, or ratios.
struct NutrientBands {
    UncertaintyBand mean_per_m2;  // over the polygon's area
    UncertaintyBand low_quarter_per_m2;
    UncertaintyBand high_tenth_per_m2;
    UncertaintyBand max_per_m2;
    UncertaintyBand cv_ratio;
    UncertaintyBand over_limit_ratio;
};

struct PastureBands {
    int draws = 0;
    std::array<NutrientBands, 3> nutrients;  // n, p2o5, k2o
    UncertaintyBand residue_dm_kg;
    UncertaintyBand animal_days;
    UncertaintyBand n_lost_gas_kg;
    UncertaintyBand available_n_kg;  // the first year, of the span's feedings alone
    std::optional<UncertaintyBand> worth_available;
    // Share of draws in which a cell is over any limit of its pasture, on the ground's grid; a
    // block of cells shares one value where cells are thinned. Empty without limits.
    Raster<float> chance_over;
};

struct UncertaintyRequest {
    int draws = 200;
    std::uint64_t seed = 1;
    std::size_t most_cells = 60000;
};

// nullopt when nothing was fed in the span, or when stopped.
[[nodiscard]] std::optional<PastureBands> pasture_bands(const Ranch& ranch,
                                                        const PastureGround& ground,
                                                        const LoadFields& fields,
                                                        const UncertaintyRequest& request,
                                                        const std::stop_token& stop);

}  // namespace haylane
