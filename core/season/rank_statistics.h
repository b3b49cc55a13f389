#pragma once
// Two rank statistics that hold up to odd values: Spearman's correlation (1904; tied values share
// their mean rank) and the Theil-Sen slope (Sen 1968), the median of all pairs' slopes.

#include <optional>
#include <span>

namespace haylane {

// In [-1, 1]; nullopt for fewer than 3 pairs, sizes that differ, or values all the same.
[[nodiscard]] std::optional<double> rank_correlation(std::span<const double> x,
                                                     std::span<const double> y);
// Change of y a step of x = 0, 1, 2 ...; nullopt for fewer than 2 values. Quadratic in values.
[[nodiscard]] std::optional<double> median_slope(std::span<const double> y);
// The value that a share of the sorted values lies below, between neighbours in proportion; values
// must not be empty. Sorts a copy.
[[nodiscard]] double quantile(std::span<const double> values, double share);

}  // namespace haylane
