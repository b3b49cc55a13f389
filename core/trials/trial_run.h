#pragma once
// One feeding that was weighed and timed. What was not measured is absent; totals are of the whole
// feeding, however many trips it took.

#include "core/base/day.h"

#include <optional>
#include <string>

namespace haylane {

// A composite of grabs; shares of dry matter but for `dm_ratio`.
struct HaySample {
    std::optional<double> dm_ratio;  // of as fed
    std::optional<double> cp_ratio;
    std::optional<double> tdn_ratio;
    std::optional<double> ash_ratio;
};

struct TrialRun {
    std::string rig;
    std::string lot;
    std::optional<sys_days> date;
    std::string pair;                // runs of two rigs with the same mark are a pair
    double bales = 0.0;              // > 0
    std::optional<double> bale_kg;   // as fed
    std::optional<double> hookup_s;  // sum over the feeding
    std::optional<double> unhook_s;
    std::optional<double> feed_s;  // laying, turns included
    std::optional<double> fuel_l;  // of the whole feeding
    bool fuel_weighed = false;     // false: read as a volume
    HaySample in_bale;
    HaySample in_windrow;
    std::optional<double> wind_m_per_s;
    std::optional<double> line_length_m;
    std::optional<double> drift_downwind_m;  // how far fines lie beyond the windrow
    std::string where;                       // file and row, for problems

    [[nodiscard]] std::optional<double> dm_kg() const {
        if (!bale_kg || !in_bale.dm_ratio) return std::nullopt;
        return bales * *bale_kg * *in_bale.dm_ratio;
    }
};

// Litres of a mass of diesel. 7.0 lb a US gallon (0.8388 kg/l) at 60 F; it thins by 0.00083 of its
// volume a kelvin (ASTM D1250's table for diesel at about this density, from memory).
[[nodiscard]] constexpr double diesel_l(double mass_kg, std::optional<double> temperature_c) {
    constexpr double kKgPerL = 7.0 * 0.45359237 / 3.785411784;
    constexpr double kAt_c = (60.0 - 32.0) / 1.8;
    constexpr double kPerKelvin = 0.00083;
    return mass_kg / kKgPerL * (1.0 + kPerKelvin * (temperature_c.value_or(kAt_c) - kAt_c));
}

}  // namespace haylane
