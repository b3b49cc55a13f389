#include "core/plan/spoken.h"

#include "core/base/units.h"

#include <fmt/format.h>

namespace haylane {

bool speaks_metric(const Settings& settings) { return settings.units == "metric"; }

std::string spoken_length(double length_m, const Settings& settings) {
    return speaks_metric(settings) ? fmt::format("{:.0f} m", length_m)
                                   : fmt::format("{:.0f} ft", length_m / units::kMetersPerFoot);
}

std::string spoken_short_length(double length_m, const Settings& settings) {
    return speaks_metric(settings) ? fmt::format("{:.1f} m", length_m)
                                   : fmt::format("{:.1f} ft", length_m / units::kMetersPerFoot);
}

std::string spoken_weight(double mass_kg, const Settings& settings) {
    return speaks_metric(settings) ? fmt::format("{:.0f} kg", mass_kg)
                                   : fmt::format("{:.0f} lb", mass_kg / units::kKgPerPound);
}

std::string spoken_lay_rate(double kg_per_m, const Settings& settings) {
    return speaks_metric(settings)
               ? fmt::format("{:.1f} kg/m", kg_per_m)
               : fmt::format("{:.1f} lb/ft", kg_per_m * units::kMetersPerFoot / units::kKgPerPound);
}

std::string spoken_clock(std::chrono::minutes since_midnight) {
    const auto minutes = since_midnight.count();
    return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

std::string spoken_density(double bales_per_m2, int decimals, const Settings& settings) {
    const double area = speaks_metric(settings) ? units::kM2PerHectare : units::kM2PerAcre;
    return fmt::format("{:.{}f}", bales_per_m2 * area, decimals);
}

std::string spoken_density_unit(const Settings& settings) {
    return speaks_metric(settings) ? "bales/ha" : "bales/ac";
}

std::string spoken_rate(double kg_per_m2, const Settings& settings) {
    return speaks_metric(settings)
               ? fmt::format("{:.0f} kg/ha", kg_per_m2 * units::kM2PerHectare)
               : fmt::format("{:.0f} lb/ac", units::lb_per_ac_from_kg_per_m2(kg_per_m2));
}

std::string spoken_share(double ratio) {
    return ratio > 0.0 && ratio < 0.01 ? "under 1 %" : fmt::format("{:.0f} %", 100.0 * ratio);
}

}  // namespace haylane
