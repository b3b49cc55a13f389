#pragma once
// How much of something lies on a pasture and how evenly: the mean over the fence's whole area, and
// what a soil core would see (through the window) on the ground that may be fed on.

#include "core/deposit/evenness.h"
#include "core/ranch/ranch.h"

#include <optional>
#include <vector>

namespace haylane {

struct LoadFigures {
    double total = 0.0;        // kg, bales or animal-days on the pasture
    double mean_per_m2 = 0.0;  // total over the polygon's area: the same for any cell size
    // Seen through the window, over feed ground (all of the pasture where none may be fed on).
    double feed_ground_mean_per_m2 = 0.0;
    double low_quarter_per_m2 = 0.0;  // mean of the lightest quarter
    double high_tenth_per_m2 = 0.0;   // mean of the heaviest tenth
    double max_per_m2 = 0.0;
    std::optional<Evenness> even;  // ratios; nothing where nothing lies
    std::optional<double> limit_per_m2;
    double over_limit_ratio = 0.0;  // share of feed ground above the limit
    std::vector<double> curve;      // share on the lightest 0, 5, ... 100 % of feed ground
};

inline constexpr int kCurveSteps = 20;

// Ground that figures are judged on: target cells, or all cells where there is no target.
[[nodiscard]] const Raster<std::uint8_t>& judged_cells(const PastureGround& ground);
// `per_cell` amounts on the ground's grid; `seen` the same through the window.
[[nodiscard]] LoadFigures load_figures(const PastureGround& ground, double area_m2,
                                       const Raster<double>& per_cell, const Raster<double>& seen,
                                       std::optional<double> limit_per_m2);

}  // namespace haylane
