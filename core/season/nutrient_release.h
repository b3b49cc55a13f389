#pragma once
// How much of the nitrogen left by feeding plants can take up, this year and the two after it.
// Organic N is released as manure's: 35 % the first year below 18 % dry matter (dung), 25 % above
// (left-over hay; an assumption, as the figures are manure's), then 12 % and 5 % (Cornell, CSS
// 412). Of urine N, 36 % is found as mineral N in the soil in spring (Schoenau, Saskatchewan),
// once.

#include "core/season/ledger.h"

#include <array>
#include <span>

namespace haylane {

inline constexpr std::size_t kReleaseYears = 3;
using ReleaseShares = std::array<double, kReleaseYears>;
inline constexpr ReleaseShares kDungRelease{0.35, 0.12, 0.05};
inline constexpr ReleaseShares kResidueRelease{0.25, 0.12, 0.05};
inline constexpr ReleaseShares kUrineRelease{0.36, 0.0, 0.0};

// What amounts brought in years 0, 1, 2 ... release in the given year; nothing before the first.
[[nodiscard]] double released_in_year(std::span<const double> brought_kg,
                                      const ReleaseShares& shares, std::size_t year);
// kg plants can take up in the growing season after the last of the seasons, and in the next two,
// from all of the seasons; consecutive ones, oldest first. Zeros for none.
[[nodiscard]] std::array<double, kReleaseYears> available_n_kg(std::span<const Ledger> seasons);

}  // namespace haylane
