#include "core/haul/haul_work.h"

#include "core/haul/motion.h"
#include "core/ration/bales_needed.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

constexpr double kUsualBaleKg = 590.0;  // assumption: a 1,300 lb round bale
constexpr double kWholeBale = 1e-9;

// A straight level way of a length.
Route level_way(double length_m, Surface surface, bool snow, const Settings& settings) {
    Route route;
    const double speed = travel_speed_m_per_s(surface, snow, settings);
    route.parts.push_back({{{0.0, 0.0}, {length_m, 0.0}}, surface, length_m, speed});
    route.length_m = length_m;
    route.drive_s = length_m / speed;
    return route;
}

struct Sum {
    double time_s = 0.0;
    double fuel_l = 0.0;
    void add(const LoadWork& work, double times = 1.0) {
        time_s += times * work.time_s;
        fuel_l += times * work.fuel_l;
    }
};

}  // namespace

std::optional<MeanHay> mean_hay(const Ranch& ranch, std::optional<YardId> yard) {
    MeanHay hay;
    double bales = 0.0;
    double kg = 0.0;
    double dm = 0.0;
    double priced_kg = 0.0;
    double money = 0.0;
    int most = 0;
    for (const HayLot& lot : ranch.lots) {
        if (lot.bales <= 0 || (yard && lot.yard != *yard)) continue;
        const double lot_kg = lot.bales * lot.bale_kg;
        bales += lot.bales;
        kg += lot_kg;
        dm += lot_kg * lot.dm_ratio;
        if (lot.price_per_kg) {
            priced_kg += lot_kg;
            money += lot_kg * *lot.price_per_kg;
        }
        if (lot.bales > most) {
            most = lot.bales;
            hay.wrap = lot.wrap;
        }
    }
    if (kg <= 0.0) return std::nullopt;
    hay.bale_kg = kg / bales;
    hay.dm_ratio = dm / kg;
    if (priced_kg > 0.0) hay.price_per_kg = money / priced_kg;
    return hay;
}

MeanHay usual_hay(const Ranch& ranch, YardId yard) {
    if (auto hay = mean_hay(ranch, yard)) return *hay;
    if (auto hay = mean_hay(ranch, std::nullopt)) return *hay;
    MeanHay hay;
    hay.bale_kg = kUsualBaleKg;
    return hay;
}

int bales_a_load(const Rig& rig, const HaulHabits& habits) {
    const int carries = std::max(1, rig.bales_per_trip);
    return habits.most_bales > 0 ? std::min(carries, habits.most_bales) : carries;
}

LoadWork trip_work(const TripInput& input, const Terrain& terrain, const Settings& settings) {
    const Rig& rig = *input.rig;
    LoadInput load{.rig = &rig,
                   .hay_kg = input.bales * input.hay.bale_kg,
                   .bales = input.bales,
                   .wrap = input.hay.wrap,
                   .out = input.out,
                   .back = input.back,
                   .first_load = input.first_load,
                   .low_c = input.day.low_c,
                   .snow = input.day.snow,
                   .thaw = input.day.thaw};
    LoadWork work = load_work(load, terrain, settings);
    if (input.bales <= 0) return work;
    // Where lines will lie is not known: hay is laid on the level.
    const double rate = 0.5 * (rig.lay_kg_per_m_min + rig.lay_kg_per_m_max);
    load.lines = {{{0.0, 0.0}, {load.hay_kg / rate, 0.0}}};
    load.out = nullptr;
    load.back = nullptr;
    const LoadWork laying = load_work(load, Terrain(), settings);
    work.lay += laying.lay;
    work.loaded_distance_m += laying.lay.length_m;
    work.distance_m += laying.lay.length_m;
    work.time_s += laying.lay.time_s;
    work.fuel_l += laying.lay.fuel_l;
    work.cost = daily_cost(work.time_s, work.fuel_l, settings);
    return work;
}

HerdHaul herd_haul(const HerdHaulInput& input, const Ranch& ranch, const Terrain& terrain) {
    const Herd& herd = ranch[input.herd];
    const Rig& rig = ranch[input.rig];
    const MeanHay hay = usual_hay(ranch, input.yard);
    const HaulHabits& habits = input.habits;
    HerdHaul out{.herd = input.herd,
                 .pasture = input.pasture,
                 .yard = input.yard,
                 .rig = input.rig,
                 .head = herd.head};
    const int every =
        habits.days_at_once > 0 ? habits.days_at_once : std::max(1, herd.feed_every_days);
    const double one_day_waste = input.waste_ratio.value_or(rig.waste_ratio);
    const double waste =
        std::min(0.9, one_day_waste + habits.more_waste_ratio_per_day * std::max(0, every - 1));
    const double bale_dm_kg = hay.bale_kg * hay.dm_ratio;
    const FeedNeed need =
        feed_need(ranch, input.herd, input.day.date, 1, one_day_waste, false, bale_dm_kg);
    // Cattle eat the same; more waste means more hay.
    const double bales_a_day =
        need.bales.value_or(need.offered_kg / bale_dm_kg) * (1.0 - one_day_waste) / (1.0 - waste);
    if (bales_a_day <= 0.0) return out;
    const int load = bales_a_load(rig, habits);
    out.bales = std::max(1, static_cast<int>(std::ceil(bales_a_day * every - kWholeBale)));
    out.loads = (out.bales + load - 1) / load;
    if (habits.whole_loads) out.bales = out.loads * load;
    out.days = out.bales / bales_a_day;
    // At least a day less than the feed lasts, whole drives on the mean.
    out.check_trips = habits.check_trip ? every - 1 : 0;

    const std::optional<Route> back =
        input.out != nullptr ? std::optional(reversed(*input.out)) : std::nullopt;
    TripInput trip{.rig = &rig,
                   .hay = hay,
                   .out = input.out,
                   .back = back ? &*back : nullptr,
                   .day = input.day};
    Sum sum;
    for (int done = 0; done < out.bales; done += load) {
        trip.bales = std::min(load, out.bales - done);
        trip.first_load = done == 0;
        sum.add(trip_work(trip, terrain, ranch.settings));
    }
    if (out.check_trips > 0) {
        trip.bales = 0;
        trip.first_load = false;  // nothing is hooked up to look at cattle and water
        sum.add(trip_work(trip, terrain, ranch.settings), out.check_trips);
    }
    out.time_s = sum.time_s / out.days;
    out.fuel_l = sum.fuel_l / out.days;
    out.hay_kg = bales_a_day * hay.bale_kg;
    out.wasted_kg = waste * out.hay_kg;
    out.cost = daily_cost(out.time_s, out.fuel_l, ranch.settings);
    if (hay.price_per_kg) {
        out.hay_cost = out.hay_kg * *hay.price_per_kg;
        out.wasted_cost = out.wasted_kg * *hay.price_per_kg;
    }
    return out;
}

DistanceCost distance_cost(const Rig& rig, const MeanHay& hay, const HaulHabits& habits,
                           Surface surface, const HaulDay& day, const Settings& settings) {
    constexpr double kNearM = 1000.0;
    constexpr double kFarM = 11000.0;
    TripInput trip{.rig = &rig, .hay = hay, .bales = bales_a_load(rig, habits), .day = day};
    const double kg = trip.bales * hay.bale_kg;
    const auto at = [&](double length_m) {
        const Route out = level_way(length_m, surface, day.snow, settings);
        const Route back = reversed(out);
        trip.out = &out;
        trip.back = &back;
        return trip_work(trip, Terrain(), settings);
    };
    const LoadWork near = at(kNearM);
    const LoadWork far = at(kFarM);
    DistanceCost c;
    c.s_per_kg_m = (far.time_s - near.time_s) / (kFarM - kNearM) / kg;
    c.l_per_kg_m = (far.fuel_l - near.fuel_l) / (kFarM - kNearM) / kg;
    c.fixed_s_per_kg = near.time_s / kg - c.s_per_kg_m * kNearM;
    c.fixed_l_per_kg = near.fuel_l / kg - c.l_per_kg_m * kNearM;
    c.fixed_cost_per_kg = daily_cost(c.fixed_s_per_kg, c.fixed_l_per_kg, settings);
    c.cost_per_kg_m = daily_cost(c.s_per_kg_m, c.l_per_kg_m, settings);
    return c;
}

std::optional<double> break_even_m(const DistanceCost& a, const DistanceCost& b) {
    if (!a.fixed_cost_per_kg || !b.fixed_cost_per_kg) return std::nullopt;
    const double slope = *a.cost_per_kg_m - *b.cost_per_kg_m;
    if (slope == 0.0) return std::nullopt;
    const double meters = (*b.fixed_cost_per_kg - *a.fixed_cost_per_kg) / slope;
    return meters > 0.0 ? std::optional(meters) : std::nullopt;
}

}  // namespace haylane
