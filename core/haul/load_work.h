#pragma once
// Time, fuel and cost of one load: warm-up and hook-up, loading, the way out loaded, laying, the
// way back empty. Motion resistance by surface and condition, grade from terrain, ASABE D497 fuel;
// the rig's own figures (Rig::own) in place of the model's where it has them.

#include "core/ground/terrain.h"
#include "core/haul/travel_map.h"
#include "core/ranch/ranch.h"

#include <optional>

namespace haylane {

// Energy and fuel of one stretch: force, part load X, litres, seconds (slowed down where X > 1).
struct StretchEffort {
    double force_n = 0.0;
    double load_ratio = 0.0;
    double time_s = 0.0;
    double fuel_l = 0.0;
};
struct StretchInput {
    double length_m = 0.0;
    double grade_ratio = 0.0;       // uphill positive
    double resistance_ratio = 0.0;  // motion resistance coefficient
    double mass_kg = 0.0;
    double speed_m_per_s = 0.0;
    double pto_w = 0.0;    // rated
    double extra_w = 0.0;  // power the machine takes while it lays
    double throttle_cut_ratio = 0.0;
    double axle_pto_ratio = 0.96;
    bool older_form = false;  // of ASABE D497; it knows no reduced throttle
};
[[nodiscard]] StretchEffort stretch_effort(const StretchInput& input);

struct LoadInput {
    const Rig* rig = nullptr;
    double hay_kg = 0.0;  // as fed on board at the start
    int bales = 0;
    Wrap wrap = Wrap::net;
    bool in_rings = false;        // bales are set down whole along the lines, none is laid
    std::vector<Polyline> lines;  // in driving order
    // By line: the way to its start from the end of the line before; none for the first, or where
    // it goes on where that one ended.
    std::vector<Polyline> joins;
    const Route* out = nullptr;   // yard to the first line's start
    const Route* back = nullptr;  // last line's end to the yard
    bool first_load = false;      // warm-up and hook-up count here
    std::optional<double> low_c;
    bool snow = false;
    bool thaw = false;
};

struct LegWork {
    double length_m = 0.0;
    double time_s = 0.0;
    double fuel_l = 0.0;
    double energy_j = 0.0;  // against motion resistance and grade
    LegWork& operator+=(const LegWork& more) {
        length_m += more.length_m;
        time_s += more.time_s;
        fuel_l += more.fuel_l;
        energy_j += more.energy_j;
        return *this;
    }
};

struct LoadWork {
    LegWork out;
    LegWork lay;  // joins, and setting bales down, included
    LegWork back;
    double standing_s = 0.0;  // warm-up, hook-up, loading, wraps; gates are in the legs
    double standing_fuel_l = 0.0;
    double distance_m = 0.0;
    double loaded_distance_m = 0.0;
    double time_s = 0.0;
    double fuel_l = 0.0;
    std::optional<double> cost;
};
[[nodiscard]] LoadWork load_work(const LoadInput& input, const Terrain& terrain,
                                 const Settings& settings);
// Cost of time and fuel; nullopt until a fuel, labour or machine price is given.
[[nodiscard]] std::optional<double> daily_cost(double time_s, double fuel_l,
                                               const Settings& settings);

}  // namespace haylane
