// Old feed ground gives way before the lee: a calf born on it may sicken later, one born in a cold
// wind freezes that day (common practice, no source).
#include "core/plan/ground_need.h"

#include "core/plan/ring_feeding.h"
#include "core/ration/cold.h"

#include <algorithm>

namespace haylane {

bool is_cold_and_windy(const Ranch& ranch, sys_days day) {
    const WeatherDay* weather = weather_on(ranch, day);
    const Settings& s = ranch.settings;
    if (weather == nullptr || weather->wind_m_per_s.value_or(0.0) < s.lee_wind_m_per_s)
        return false;
    const auto feels_c = effective_temperature_c(*weather, false);
    return feels_c && *feels_c <= critical_temperature_c(s, day, weather->wet);
}

std::optional<double> cold_wind_from_rad(const Ranch& ranch, sys_days day) {
    if (!is_cold_and_windy(ranch, day)) return std::nullopt;
    return weather_on(ranch, day)->wind_from_rad;
}

std::optional<sys_days> calving_since(const Ranch& ranch, HerdId herd, sys_days day) {
    const DateMark& mark = ranch[herd].calving_from;
    const sys_days season = season_start(day, ranch.settings.season_start);
    if (mark.dated) {
        if (*mark.dated >= season && *mark.dated <= day) return *mark.dated;
        return std::nullopt;
    }
    if (!mark.yearly) return std::nullopt;
    const auto year = std::chrono::year_month_day(day).year();
    for (const auto y : {year, year - std::chrono::years{1}}) {
        const sys_days begin = in_year(*mark.yearly, y);
        if (begin >= season && begin <= day) return begin;
    }
    return std::nullopt;
}

GroundNeed ground_need(const Ranch& ranch, HerdId herd, sys_days day) {
    GroundNeed need{.lee_of_rad = cold_wind_from_rad(ranch, day),
                    .off_gates = is_fed_in_rings(ranch, herd)};
    if (calving_since(ranch, herd, day))
        need.fresh_since = season_start(day, ranch.settings.season_start);
    return need;
}

std::vector<GroundNeed> as_it_yields(const GroundNeed& need) {
    GroundNeed fresh = need;
    fresh.lee_of_rad.reset();
    const GroundNeed bare{.off_gates = need.off_gates};
    GroundNeed lee = bare;
    lee.lee_of_rad = need.lee_of_rad;
    std::vector<GroundNeed> all{need};
    for (const GroundNeed& less : {lee, fresh, bare})
        if (std::find(all.begin(), all.end(), less) == all.end()) all.push_back(less);
    return all;
}

}  // namespace haylane
