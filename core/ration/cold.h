#pragma once
// How much more energy cattle need on a cold day: effective temperature, the temperature below
// which they burn more, and the increase. Degrees C; ratios (0.14 = 14 % more TDN). Degenerate
// cases: no temperature known gives no increase; no wind known counts as calm.

#include "core/base/day.h"
#include "core/ranch/ranch.h"

#include <optional>

namespace haylane {

// Mean of the day's low and high less the wind's chill; 0.3 of the wind counts in shelter. Only one
// of low and high known: 6 C toward the other. nullopt when neither is known.
[[nodiscard]] std::optional<double> effective_temperature_c(const WeatherDay& weather,
                                                            bool sheltered);

// Effective temperature below which cattle in this coat need more: wet, autumn coat (before
// December of the season), or dry heavy winter coat.
[[nodiscard]] double critical_temperature_c(const Settings& settings, sys_days day, bool wet);

// Rise of energy need at an effective temperature: 1 % per degree F (1.8 % per C) below critical.
[[nodiscard]] double cold_rise_ratio(double effective_c, double critical_c);

// Rise for `day`: the mean of that day and the next, of those that are known; nullopt when the
// weather of neither is known.
[[nodiscard]] std::optional<double> cold_need_ratio(const Ranch& ranch, sys_days day,
                                                    bool sheltered);

}  // namespace haylane
