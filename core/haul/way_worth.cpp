// A way has one weight, so that leaving a trail, too, has one best angle. Grades are left out of
// the choice (they are in the load's own time and fuel): a way out and back climbs what it
// descends.
#include "core/haul/way_worth.h"

#include "core/haul/load_work.h"
#include "core/haul/motion.h"

namespace haylane {

namespace {

constexpr double kLitersPerM3 = 1000.0;

}  // namespace

WayWorth::WayWorth(const Settings& settings, const TravelConditions& conditions)
    : settings_(settings), when_(conditions) {
    if (settings.ways_by == "fuel" && conditions.pto_w > 0.0) {
        per_s_ = 0.0;
        per_l_ = 1.0;
    }
    // Without a price of fuel the least cost is the least time, whatever an hour costs.
    if (settings.ways_by == "cost" && settings.fuel_price_per_m3 && conditions.pto_w > 0.0) {
        per_s_ = settings.labor_per_s.value_or(0.0) + settings.machine_per_s.value_or(0.0);
        per_l_ = *settings.fuel_price_per_m3 / kLitersPerM3;
    }
}

double WayWorth::meters_per_unit(std::optional<Surface> surface, double speed_m_per_s) const {
    if (is_time()) return speed_m_per_s;
    const StretchEffort effort =
        stretch_effort({.length_m = 1.0,
                        .resistance_ratio = resistance_ratio(
                            surface, {when_.snow, when_.thaw, when_.low_c}, settings_),
                        .mass_kg = 0.5 * (when_.loaded_kg + when_.rig_kg),
                        .speed_m_per_s = speed_m_per_s,
                        .pto_w = when_.pto_w,
                        .throttle_cut_ratio = settings_.throttle_cut_ratio,
                        .axle_pto_ratio = settings_.axle_pto_ratio,
                        .older_form = settings_.fuel_form == "older"});
    return 1.0 / (per_s_ * effort.time_s + per_l_ * effort.fuel_l);
}

double WayWorth::of_gate(double seconds) const {
    const double idle_l = settings_.idle_m3_per_j * when_.pto_w * kLitersPerM3 * seconds;
    return per_s_ * seconds + per_l_ * idle_l;
}

}  // namespace haylane
