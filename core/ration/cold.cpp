// Method: extension rule of 1 % more TDN per degree F of effective temperature below the lower
// critical one (NDSU, SDSU; the critical temperatures too). Wind takes 1.05 F per mph, a straight
// line through NDSU's chart entry "25 F and 20 mph feel like 4 F"; the chart itself curves, so away
// from that entry this is an approximation.
#include "core/ration/cold.h"

#include "core/base/units.h"

#include <algorithm>
#include <chrono>

namespace haylane {
namespace {

constexpr double kChillFPerMph = 1.05;
constexpr double kShelterWindRatio = 0.3;
constexpr double kHalfDaySwingC = 6.0;
constexpr double kRisePerC = 0.018;

std::optional<double> mean_c(const WeatherDay& weather) {
    if (weather.low_c && weather.high_c) return 0.5 * (*weather.low_c + *weather.high_c);
    if (weather.low_c) return *weather.low_c + kHalfDaySwingC;
    if (weather.high_c) return *weather.high_c - kHalfDaySwingC;
    return std::nullopt;
}

std::optional<double> rise_on(const Ranch& ranch, sys_days day, bool sheltered) {
    const WeatherDay* weather = weather_on(ranch, day);
    if (weather == nullptr) return std::nullopt;
    const auto effective_c = effective_temperature_c(*weather, sheltered);
    if (!effective_c) return std::nullopt;
    return cold_rise_ratio(*effective_c, critical_temperature_c(ranch.settings, day, weather->wet));
}

}  // namespace

std::optional<double> effective_temperature_c(const WeatherDay& weather, bool sheltered) {
    const auto mean = mean_c(weather);
    if (!mean) return std::nullopt;
    const double wind_mph = weather.wind_m_per_s.value_or(0.0) / units::kMetersPerSecondPerMph *
                            (sheltered ? kShelterWindRatio : 1.0);
    return *mean - kChillFPerMph * wind_mph / 1.8;
}

double critical_temperature_c(const Settings& settings, sys_days day, bool wet) {
    if (wet) return settings.critical_wet_c;
    const auto first_year =
        std::chrono::year_month_day(season_start(day, settings.season_start)).year();
    const bool early = day < sys_days(first_year / std::chrono::December / 1);
    return early ? settings.critical_early_c : settings.critical_heavy_coat_c;
}

double cold_rise_ratio(double effective_c, double critical_c) {
    return kRisePerC * std::max(0.0, critical_c - effective_c);
}

std::optional<double> cold_need_ratio(const Ranch& ranch, sys_days day, bool sheltered) {
    const auto today = rise_on(ranch, day, sheltered);
    const auto tomorrow = rise_on(ranch, day + std::chrono::days(1), sheltered);
    if (today && tomorrow) return 0.5 * (*today + *tomorrow);
    return today ? today : tomorrow;
}

}  // namespace haylane
