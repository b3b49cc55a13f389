#pragma once
// What hauling costs before lines are chosen: one full load from a yard to the middle of a
// pasture's feed ground, a herd's feedings from there, and how cost grows with distance.
// SI units; money in the ranch's currency, absent until a price is given.

#include "core/haul/load_work.h"

#include <optional>
#include <vector>

namespace haylane {

// The hay of one yard (or of the ranch, where a yard holds none): means by bales on hand.
struct MeanHay {
    double bale_kg = 0.0;  // as fed
    double dm_ratio = 0.88;
    std::optional<double> price_per_kg;  // of the lots that have a price
    Wrap wrap = Wrap::net;               // of the greatest lot
};
// nullopt where no lot has bales: 590 kg bales (1,300 lb, assumption) may be asked with
// `usual_hay`.
[[nodiscard]] std::optional<MeanHay> mean_hay(const Ranch& ranch, std::optional<YardId> yard);
[[nodiscard]] MeanHay usual_hay(const Ranch& ranch, YardId yard);

// The day's weather and how feeding is done.
struct HaulDay {
    sys_days date;
    bool snow = false;
    bool thaw = false;
    std::optional<double> low_c;
};
struct HaulHabits {
    int days_at_once = 0;  // days' feed put out at a time; 0 = as each herd is set
    int most_bales = 0;    // a load; 0 = as the rig carries
    bool whole_loads = false;
    bool check_trip = true;  // the rig goes out empty on days without feeding
    // Hay wasted more, as a share of what is fed, for each day's feed beyond one.
    double more_waste_ratio_per_day = 0.0;
};

// Bales that a rig takes in one load under the habits; at least 1.
[[nodiscard]] int bales_a_load(const Rig& rig, const HaulHabits& habits);

// Work of one load: the way by the terrain, the hay laid on level ground at the middle of the rig's
// lay rates. `out` and `back` may be null: the load then only stands and lays.
struct TripInput {
    const Rig* rig = nullptr;
    MeanHay hay;
    int bales = 1;
    const Route* out = nullptr;
    const Route* back = nullptr;
    bool first_load = true;  // warm-up and hook-up count
    HaulDay day;
};
[[nodiscard]] LoadWork trip_work(const TripInput& input, const Terrain& terrain,
                                 const Settings& settings);

// A herd's feedings from one yard with one rig, by the day.
struct HerdHaul {
    HerdId herd;
    PastureId pasture;
    YardId yard;
    RigId rig;
    int head = 0;
    int bales = 0;                      // at one feeding
    int loads = 0;                      // at one feeding
    double days = 1.0;                  // one feeding lasts, on the mean
    int check_trips = 0;                // drives out empty between two feedings
    double time_s = 0.0;                // a day
    double fuel_l = 0.0;                // a day
    double hay_kg = 0.0;                // as fed, a day
    double wasted_kg = 0.0;             // as fed, a day
    std::optional<double> cost;         // fuel, labour and machine, a day
    std::optional<double> hay_cost;     // of all hay fed, a day
    std::optional<double> wasted_cost;  // of the wasted hay, a day
    [[nodiscard]] std::optional<double> cost_per_head() const {
        if (!cost || head <= 0) return std::nullopt;
        return *cost / head;
    }
    [[nodiscard]] std::optional<double> haul_and_waste() const {
        if (!cost) return std::nullopt;
        return *cost + wasted_cost.value_or(0.0);
    }
};
struct HerdHaulInput {
    HerdId herd;
    PastureId pasture;
    YardId yard;
    RigId rig;
    const Route* out = nullptr;
    HaulDay day;
    HaulHabits habits;
    std::optional<double> waste_ratio;  // in place of the rig's
};
// Whole bales a feeding; what is left over counts for the next, so that a feeding of B bales lasts
// B over the bales needed a day.
[[nodiscard]] HerdHaul herd_haul(const HerdHaulInput& input, const Ranch& ranch,
                                 const Terrain& terrain);

// Cost, time and fuel a kg of hay for one full load over a level way on one surface, as a straight
// line in distance: fixed + slope * one-way metres (exact: level ground has no other terms).
struct DistanceCost {
    double fixed_s_per_kg = 0.0;
    double s_per_kg_m = 0.0;
    double fixed_l_per_kg = 0.0;
    double l_per_kg_m = 0.0;
    std::optional<double> fixed_cost_per_kg;
    std::optional<double> cost_per_kg_m;
};
[[nodiscard]] DistanceCost distance_cost(const Rig& rig, const MeanHay& hay,
                                         const HaulHabits& habits, Surface surface,
                                         const HaulDay& day, const Settings& settings);
// One-way distance at which two rigs cost the same a kg; nullopt where their lines do not cross at
// a distance above 0, or money is not known.
[[nodiscard]] std::optional<double> break_even_m(const DistanceCost& a, const DistanceCost& b);

}  // namespace haylane
