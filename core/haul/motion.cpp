// Brixius equations as in ASABE D497; the snow part after US Army CRREL TR-01-16 Table 11, thawing
// ground after Richmond, Shoop and Blaisdell 1995, CRREL 95-1 Table A3 (defaults in settings).
#include "core/haul/motion.h"

#include "core/base/units.h"

#include <cmath>

namespace haylane {
namespace {

constexpr double kCarriesBelowC = -2.2;  // 28 F, rounded to the warm side

double dry_resistance(std::optional<Surface> surface, const Settings& settings) {
    if (!surface) return settings.resistance_pasture_ratio;
    switch (*surface) {
        case Surface::paved:
            return settings.resistance_paved_ratio;
        case Surface::gravel:
            return settings.resistance_gravel_ratio;
        case Surface::dirt:
            return settings.resistance_dirt_ratio;
        case Surface::two_track:
            return settings.resistance_two_track_ratio;
    }
    return settings.resistance_pasture_ratio;
}

double dry_speed(std::optional<Surface> surface, const Settings& settings) {
    if (!surface) return settings.speed_pasture_m_per_s;
    switch (*surface) {
        case Surface::paved:
            return settings.speed_paved_m_per_s;
        case Surface::gravel:
            return settings.speed_gravel_m_per_s;
        case Surface::dirt:
            return settings.speed_dirt_m_per_s;
        case Surface::two_track:
            return settings.speed_two_track_m_per_s;
    }
    return settings.speed_pasture_m_per_s;
}

}  // namespace

double motion_resistance_ratio(double wheel_numeric, double slip_ratio) {
    return 1.0 / wheel_numeric + 0.04 + 0.5 * slip_ratio / std::sqrt(wheel_numeric);
}

double gross_traction_ratio(double wheel_numeric, double slip_ratio) {
    return 0.88 * (1.0 - std::exp(-0.1 * wheel_numeric)) * (1.0 - std::exp(-7.5 * slip_ratio)) +
           0.04;
}

double net_traction_ratio(double wheel_numeric, double slip_ratio) {
    return gross_traction_ratio(wheel_numeric, slip_ratio) -
           motion_resistance_ratio(wheel_numeric, slip_ratio);
}

double tractive_efficiency(double wheel_numeric, double slip_ratio) {
    return (1.0 - slip_ratio) * net_traction_ratio(wheel_numeric, slip_ratio) /
           gross_traction_ratio(wheel_numeric, slip_ratio);
}

double motion_force_n(double mass_kg, double resistance_ratio, double grade_ratio) {
    const double angle = std::atan(grade_ratio);
    return mass_kg * units::kGravityMPerS2 * (resistance_ratio * std::cos(angle) + std::sin(angle));
}

double motion_energy_j(double mass_kg, double resistance_ratio, double grade_ratio,
                       double length_m) {
    const double pull_ratio = resistance_ratio + grade_ratio;
    return pull_ratio > 0.0 ? mass_kg * units::kGravityMPerS2 * pull_ratio * length_m : 0.0;
}

bool frozen_overnight(const GroundState& state) {
    return state.low_c && *state.low_c <= kCarriesBelowC;
}

double resistance_ratio(std::optional<Surface> surface, const GroundState& state,
                        const Settings& settings) {
    double ratio = dry_resistance(surface, settings);
    const bool earth = surface != Surface::paved && surface != Surface::gravel;
    if (earth && state.thaw && !frozen_overnight(state))
        ratio *= settings.resistance_thaw_factor_ratio;
    if (state.snow && surface != Surface::paved) ratio += settings.resistance_snow_extra_ratio;
    return ratio;
}

double travel_speed_m_per_s(std::optional<Surface> surface, bool snow, const Settings& settings) {
    const double speed = dry_speed(surface, settings);
    return snow && surface != Surface::paved ? speed * settings.snow_speed_ratio : speed;
}

}  // namespace haylane
