#pragma once
// Lengths, weights, amounts an area and times as the plan's sentences say them, in the units the
// ranch has set.

#include "core/ranch/settings.h"

#include <chrono>
#include <string>

namespace haylane {

[[nodiscard]] bool speaks_metric(const Settings& settings);
// "300 ft" or "91 m", to the nearest whole one.
[[nodiscard]] std::string spoken_length(double length_m, const Settings& settings);
// "2.5 ft" or "0.8 m".
[[nodiscard]] std::string spoken_short_length(double length_m, const Settings& settings);
// "30 lb" or "14 kg".
[[nodiscard]] std::string spoken_weight(double mass_kg, const Settings& settings);
// "2.5 lb/ft" or "3.7 kg/m".
[[nodiscard]] std::string spoken_lay_rate(double kg_per_m, const Settings& settings);
// Bales an acre or a hectare with `decimals`, without the unit.
[[nodiscard]] std::string spoken_density(double bales_per_m2, int decimals,
                                         const Settings& settings);
[[nodiscard]] std::string spoken_density_unit(const Settings& settings);  // bales/ac
// "9:30", "14:05": a time of day by the clock.
[[nodiscard]] std::string spoken_clock(std::chrono::minutes since_midnight);
// "150 lb/ac" or "168 kg/ha".
[[nodiscard]] std::string spoken_rate(double kg_per_m2, const Settings& settings);
// "3 %"; a share that is not 0 is never said to be less than "under 1 %".
[[nodiscard]] std::string spoken_share(double ratio);

}  // namespace haylane
