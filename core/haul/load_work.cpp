// One load is walked in short stretches. Each stretch: force from motion resistance and grade
// (weight taken at its middle), PTO power through the axle, fuel by the newer D497 form, throttled
// back except where the PTO must turn at its rated speed. Where the tractor is short of power it
// slows down until it just has enough, and what it lays slows with it. What was measured with the
// rig stands in for the model: minutes and fuel a bale while it lays, hook-up, speed by surface.
#include "core/haul/load_work.h"

#include "core/base/units.h"
#include "core/haul/fuel.h"
#include "core/haul/motion.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

constexpr double kColdC = -160.0 / 9.0;  // 0 F
constexpr double kStretchM = 10.0;
constexpr double kLitersPerM3 = 1000.0;

// How one line is driven.
struct Drive {
    double resistance_ratio = 0.0;
    double speed_m_per_s = 0.0;
    double extra_w = 0.0;
    double throttle_cut_ratio = 0.0;
    double length_factor = 1.0;  // ways that are not checked are longer than drawn
    double kg_start = 0.0;       // all that moves
    double kg_end = 0.0;
};

class LoadWalk {
  public:
    LoadWalk(const LoadInput& input, const Terrain& terrain, const Settings& settings)
        : in_(input),
          terrain_(terrain),
          set_(settings),
          ground_{input.snow, input.thaw, input.low_c} {}

    // Picking a bale up; setting it down in a ring is taken to last as long (assumption).
    [[nodiscard]] double handling_s() const {
        return in_.rig->load_s_per_bale.value_or(set_.load_bale_s);
    }
    [[nodiscard]] double idle_l(double seconds) const {
        return set_.idle_m3_per_j * in_.rig->pto_w * kLitersPerM3 * seconds;
    }
    [[nodiscard]] LegWork leg(const Route& route, double kg) const {
        LegWork sum;
        for (const RoutePart& part : route.parts) {
            Drive drive = pasture_drive(kg);
            drive.resistance_ratio = resistance_ratio(part.surface, ground_, set_);
            drive.speed_m_per_s = speed_m_per_s(part);
            const double drawn = length_m(part.path);
            drive.length_factor = drawn > 0.0 ? part.length_m / drawn : 1.0;
            walk(part.path, drive, sum);
        }
        sum.time_s += route.gate_s;
        sum.fuel_l += idle_l(route.gate_s);
        return sum;
    }
    [[nodiscard]] LegWork lay() const;
    [[nodiscard]] double standing_s() const;

  private:
    // What the rig's tracks showed on such a surface, less in snow; a speed that the trail has of
    // its own stands.
    [[nodiscard]] double speed_m_per_s(const RoutePart& part) const {
        const double usual = travel_speed_m_per_s(part.surface, in_.snow, set_);
        if (!part.surface || part.speed_m_per_s != usual) return part.speed_m_per_s;
        const auto own = in_.rig->own.haul_m_per_s.at(static_cast<std::size_t>(*part.surface));
        return own ? *own * usual / travel_speed_m_per_s(part.surface, false, set_) : usual;
    }
    [[nodiscard]] Drive pasture_drive(double kg) const {
        Drive drive;
        drive.resistance_ratio = resistance_ratio(std::nullopt, ground_, set_);
        drive.speed_m_per_s = travel_speed_m_per_s(std::nullopt, in_.snow, set_);
        drive.throttle_cut_ratio = set_.throttle_cut_ratio;
        drive.kg_start = kg;
        drive.kg_end = kg;
        return drive;
    }
    [[nodiscard]] Drive lay_drive(double kg_per_m) const {
        const Rig& rig = *in_.rig;
        Drive drive = pasture_drive(0.0);
        drive.speed_m_per_s = rig.feed_m_per_s;
        const bool shreds = rig.method == Method::shred;
        const double usual_w =
            shreds ? set_.shred_feed_j_per_kg * kg_per_m * rig.feed_m_per_s : set_.unroll_feed_w;
        drive.extra_w = rig.feed_w.value_or(usual_w);
        if (shreds) drive.throttle_cut_ratio = 0.0;
        return drive;
    }
    void walk(const Polyline& line, const Drive& drive, LegWork& sum) const;

    const LoadInput& in_;
    const Terrain& terrain_;
    const Settings& set_;
    GroundState ground_;
};

void LoadWalk::walk(const Polyline& line, const Drive& drive, LegWork& sum) const {
    const double total = length_m(line);
    if (total <= 0.0) return;
    const double step = terrain_.known() ? std::min(kStretchM, terrain_.own_cell_m()) : kStretchM;
    const Polyline fine = densified(line, step > 0.0 ? step : kStretchM);
    double along = 0.0;
    for (std::size_t i = 1; i < fine.size(); ++i) {
        const double piece = distance_m(fine[i - 1], fine[i]);
        if (piece <= 0.0) continue;
        const auto z0 = terrain_.elevation_m(fine[i - 1]);
        const auto z1 = terrain_.elevation_m(fine[i]);
        StretchInput s;
        s.length_m = piece * drive.length_factor;
        s.grade_ratio = z0 && z1 ? (*z1 - *z0) / s.length_m : 0.0;
        s.resistance_ratio = drive.resistance_ratio;
        const double share = (along + 0.5 * piece) / total;
        s.mass_kg = drive.kg_start + (drive.kg_end - drive.kg_start) * share;
        s.speed_m_per_s = drive.speed_m_per_s;
        s.pto_w = in_.rig->pto_w;
        s.extra_w = drive.extra_w;
        s.throttle_cut_ratio = drive.throttle_cut_ratio;
        s.axle_pto_ratio = set_.axle_pto_ratio;
        s.older_form = set_.fuel_form == "older";
        const StretchEffort effort = stretch_effort(s);
        sum.length_m += s.length_m;
        sum.time_s += effort.time_s;
        sum.fuel_l += effort.fuel_l;
        sum.energy_j += motion_energy_j(s.mass_kg, s.resistance_ratio, s.grade_ratio, s.length_m);
        along += piece;
    }
}

LegWork LoadWalk::lay() const {
    double total = 0.0;
    for (const Polyline& line : in_.lines) total += length_m(line);
    if (total <= 0.0) return {};
    const double kg_per_m = in_.hay_kg / total;
    double kg = in_.rig->mass_kg + in_.hay_kg;
    LegWork hay;
    LegWork joins;
    for (std::size_t i = 0; i < in_.lines.size(); ++i) {
        const Polyline& line = in_.lines[i];
        if (i < in_.joins.size()) walk(in_.joins[i], pasture_drive(kg), joins);
        Drive drive = in_.in_rings ? pasture_drive(kg) : lay_drive(kg_per_m);
        drive.kg_start = kg;
        kg -= kg_per_m * length_m(line);
        drive.kg_end = kg;
        walk(line, drive, hay);
    }
    const OwnFigures& own = in_.rig->own;
    if (in_.in_rings) {
        hay.time_s += handling_s() * in_.bales;
        hay.fuel_l += idle_l(handling_s() * in_.bales);
    } else {
        hay.time_s = own.feed_s_per_bale ? *own.feed_s_per_bale * in_.bales : hay.time_s;
        hay.fuel_l = own.feed_l_per_bale ? *own.feed_l_per_bale * in_.bales : hay.fuel_l;
    }
    hay += joins;
    return hay;
}

double LoadWalk::standing_s() const {
    double seconds = 0.0;
    if (in_.first_load) {
        const bool cold = in_.low_c && *in_.low_c < kColdC;
        seconds += (cold ? set_.warm_up_cold_s : set_.warm_up_s) +
                   in_.rig->own.hookup_s.value_or(in_.rig->hookup_s);
    }
    double bale_s = handling_s();
    if (in_.wrap != Wrap::none) {
        bale_s += in_.wrap == Wrap::net ? set_.wrap_net_s : set_.wrap_twine_s;
        if (in_.low_c && *in_.low_c < 0.0) bale_s += set_.wrap_frozen_extra_s;
    }
    return seconds + bale_s * in_.bales;
}

}  // namespace

StretchEffort stretch_effort(const StretchInput& in) {
    StretchEffort out;
    out.force_n = motion_force_n(in.mass_kg, in.resistance_ratio, in.grade_ratio);
    double speed = in.speed_m_per_s;
    const double need_w = std::max(0.0, out.force_n) * speed / in.axle_pto_ratio + in.extra_w;
    out.load_ratio = in.pto_w > 0.0 ? need_w / in.pto_w : 0.0;
    if (out.load_ratio > 1.0) {
        speed /= out.load_ratio;
        out.load_ratio = 1.0;
    }
    out.time_s = speed > 0.0 ? in.length_m / speed : 0.0;
    const double rate_l_per_s =
        in.older_form ? fuel_rate_old_l_per_s(out.load_ratio, in.pto_w)
                      : fuel_rate_l_per_s(out.load_ratio, in.pto_w, in.throttle_cut_ratio);
    out.fuel_l = rate_l_per_s * out.time_s;
    return out;
}

LoadWork load_work(const LoadInput& input, const Terrain& terrain, const Settings& settings) {
    LoadWork work;
    const LoadWalk walk(input, terrain, settings);
    if (input.out) work.out = walk.leg(*input.out, input.rig->mass_kg + input.hay_kg);
    work.lay = walk.lay();
    if (input.back) work.back = walk.leg(*input.back, input.rig->mass_kg);
    work.standing_s = walk.standing_s();
    work.standing_fuel_l = walk.idle_l(work.standing_s);
    work.loaded_distance_m = work.out.length_m + work.lay.length_m;
    work.distance_m = work.loaded_distance_m + work.back.length_m;
    work.time_s = work.out.time_s + work.lay.time_s + work.back.time_s + work.standing_s;
    work.fuel_l = work.out.fuel_l + work.lay.fuel_l + work.back.fuel_l + work.standing_fuel_l;
    work.cost = daily_cost(work.time_s, work.fuel_l, settings);
    return work;
}

std::optional<double> daily_cost(double time_s, double fuel_l, const Settings& settings) {
    if (!settings.fuel_price_per_m3 && !settings.labor_per_s && !settings.machine_per_s)
        return std::nullopt;
    return fuel_l / kLitersPerM3 * settings.fuel_price_per_m3.value_or(0.0) +
           time_s * (settings.labor_per_s.value_or(0.0) + settings.machine_per_s.value_or(0.0));
}

}  // namespace haylane
