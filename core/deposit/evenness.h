#pragma once
// How uniform a load is over ground, as seen through a window: CV, CU, low-quarter ratio, share
// over a limit, share untouched, and the curve of share of deposit against share of area.

#include "core/deposit/pasture_ground.h"

#include <optional>
#include <span>
#include <vector>

namespace haylane {

struct Evenness {
    double mean = 0.0;
    double cv_ratio = 0.0;           // population form, s / mean
    double cv_sample_ratio = 0.0;    // n - 1 form, for published lists
    double cu_ratio = 0.0;           // Christiansen 1942: 1 - sum|x - mean| / (n mean)
    double low_quarter_ratio = 0.0;  // mean of the lowest n/4 values (fractional) / mean
    double gini_ratio = 0.0;
    double untouched_ratio = 0.0;  // share below 5 % of the mean
    double high_tenth = 0.0;       // mean of the highest tenth
    double max = 0.0;
};
// nullopt for no values or a mean of 0. Copies and sorts: O(n log n).
[[nodiscard]] std::optional<Evenness> evenness(std::span<const double> values);
// Share of the values above `limit`; 0 for none.
[[nodiscard]] double share_over(std::span<const double> values, double limit);
// Share of the deposit on the lightest 0, 1/steps, 2/steps ... 1 of the ground (Lorenz 1905);
// steps + 1 values, or none when there is no deposit. steps >= 1.
[[nodiscard]] std::vector<double> deposit_curve(std::span<const double> values, int steps);
// Values of a windowed map over target cells, in row order.
[[nodiscard]] std::vector<double> target_values(const PastureGround& ground,
                                                const Raster<double>& windowed);

}  // namespace haylane
