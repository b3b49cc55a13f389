#pragma once
// Motion resistance and traction of farm tyres (ASABE D497, Brixius form), and the resistance of a
// rig on a trail or in a pasture by the day's ground. Ratios of force to weight; slip as a
// fraction. wheel_numeric must be positive: 80 hard, 55 firm, 30 tilled, 20 soft or sandy ground.

#include "core/ranch/ranch.h"

#include <optional>

namespace haylane {

// Motion resistance over weight; slip 0 is a towed wheel.
[[nodiscard]] double motion_resistance_ratio(double wheel_numeric, double slip_ratio);
[[nodiscard]] double gross_traction_ratio(double wheel_numeric, double slip_ratio);
[[nodiscard]] double net_traction_ratio(double wheel_numeric, double slip_ratio);
// Pull power over axle power.
[[nodiscard]] double tractive_efficiency(double wheel_numeric, double slip_ratio);
// Force along the way that holds the speed on a grade (uphill positive): negative = braking.
[[nodiscard]] double motion_force_n(double mass_kg, double resistance_ratio, double grade_ratio);

// Energy over a plan length at a steady grade: braking gives none back.
[[nodiscard]] double motion_energy_j(double mass_kg, double resistance_ratio, double grade_ratio,
                                     double length_m);

struct GroundState {
    bool snow = false;
    bool thaw = false;
    std::optional<double> low_c;
};
// A thaw day's night that was cold enough for dirt to carry in the morning (28 F).
[[nodiscard]] bool frozen_overnight(const GroundState& state);
// Resistance on a trail's surface, or in a pasture (nullopt): snow adds off paved trails, thawed
// ground multiplies on dirt, two-track and pasture.
[[nodiscard]] double resistance_ratio(std::optional<Surface> surface, const GroundState& state,
                                      const Settings& settings);
// Usual speed on a surface or in a pasture, snow counted.
[[nodiscard]] double travel_speed_m_per_s(std::optional<Surface> surface, bool snow,
                                          const Settings& settings);

}  // namespace haylane
