#pragma once
// What past feedings left under a feeding's lines, beside the rest of the pasture, in bales a m2 as
// seen through the window of the evenness measures. The plan's own feedings do not count.

#include "core/deposit/pasture_ground.h"
#include "core/plan/plan.h"

#include <vector>

namespace haylane {

struct GroundSoFar {
    double here_per_m2 = 0.0;      // mean along the lines
    double mean_per_m2 = 0.0;      // of the pasture
    double heaviest_per_m2 = 0.0;  // of the pasture's cells
};
// `seen`: bales a cell through the window. Lines sampled once a cell; parts off the grid are left
// out, and without a sample nothing lies here.
[[nodiscard]] GroundSoFar ground_so_far(const PastureGround& ground, const Raster<double>& seen,
                                        const std::vector<PlannedLine>& lines);

}  // namespace haylane
