#pragma once
// What hauling costs on a day: yard by pasture, rig by rig on the same work, and herd by herd from
// the cheapest yard. Wasted hay is a range, since studies disagree on which way of feeding wastes
// more. SI units; money absent until a price is given.

#include "core/base/result.h"
#include "core/haul/haul_work.h"

#include <memory>
#include <string>
#include <vector>

namespace haylane {

struct HaulRequest {
    HaulDay day;
    std::vector<std::string> blocked;  // gates and trails that are shut this morning
    std::vector<PastureId> pastures;   // where each herd is that day
    HaulHabits habits;
};
// The request for a date with the book's weather.
[[nodiscard]] HaulDay haul_day(const Ranch& ranch, sys_days date);

// Ways from every yard to the middle of every pasture's feed ground, for each rig. `ranch` and
// `terrain` must outlive it. Errors: geometry_failed, "unknown_way" (a blocked name that is no gate
// and no trail), "no_haul" (no yard, rig or feed pasture).
class HaulWays {
  public:
    [[nodiscard]] static Result<HaulWays> find(const Ranch& ranch, const Terrain& terrain,
                                               const HaulRequest& request);
    // nullptr when there is none.
    [[nodiscard]] const Route* route(YardId yard, PastureId pasture, RigId rig) const;
    [[nodiscard]] std::string why_not(YardId yard, PastureId pasture, RigId rig) const;
    [[nodiscard]] const TravelMap& map(RigId rig) const { return *maps_[map_of_[rig.index()]]; }
    [[nodiscard]] const std::vector<PastureId>& pastures() const { return pastures_; }
    [[nodiscard]] Point place(PastureId pasture) const { return places_[pasture.index()]; }
    [[nodiscard]] const Ranch& ranch() const { return *ranch_; }
    [[nodiscard]] const Terrain& terrain() const { return *terrain_; }
    [[nodiscard]] const HaulRequest& request() const { return request_; }

  private:
    [[nodiscard]] std::size_t slot(YardId yard, PastureId pasture, RigId rig) const;
    const Ranch* ranch_ = nullptr;
    const Terrain* terrain_ = nullptr;
    HaulRequest request_;
    std::vector<PastureId> pastures_;  // feed pastures
    std::vector<Point> places_;        // by pasture
    std::vector<std::unique_ptr<TravelMap>> maps_;
    std::vector<std::size_t> map_of_;  // by rig
    std::vector<std::optional<Route>> routes_;
};

// One full load, warm-up and hook-up counted.
struct HaulTrip {
    YardId yard;
    PastureId pasture;
    RigId rig;
    bool reached = false;
    std::string why_not;  // one sentence when not reached
    bool way_checked = true;
    std::vector<std::string> via;
    double one_way_m = 0.0;
    Polyline path;  // out; empty when not reached
    int bales = 0;
    double hay_kg = 0.0;
    LoadWork work;
    // Of the herd that uses the pasture, from this yard with this rig; absent when none does.
    std::optional<HerdHaul> herd;
    [[nodiscard]] std::optional<double> cost_per_kg() const {
        if (!work.cost) return std::nullopt;
        return *work.cost / hay_kg;
    }
    [[nodiscard]] std::optional<double> cost_per_head() const {
        return herd ? herd->cost_per_head() : std::nullopt;
    }
};

// All herds' work for a day.
struct HaulTotal {
    int head = 0;
    double time_s = 0.0;
    double fuel_l = 0.0;
    double hay_kg = 0.0;
    double wasted_kg = 0.0;
    std::optional<double> cost;
    std::optional<double> wasted_cost;
    int herds_not_reached = 0;
    [[nodiscard]] std::optional<double> per_head() const {
        if (!cost || head <= 0) return std::nullopt;
        return (*cost + wasted_cost.value_or(0.0)) / head;
    }
};
// The same work with hay wasted at the low and at the high end of what is published.
struct HaulRange {
    HaulTotal low;
    HaulTotal high;
    std::vector<HerdHaul> herds;  // at the low end, those that are reached
};

struct RigWork {
    RigId rig;
    HaulRange day;  // all herds fed with this rig
    DistanceCost on_gravel;
};
struct BreakEven {
    RigId a;
    RigId b;
    std::optional<double> one_way_m;  // nullopt: one is cheaper at every distance
    std::optional<RigId> cheaper;     // at every distance, when it does not cross
};

// Two yards whose hay has unlike prices: how much farther the cheaper one's may be hauled, on level
// gravel with the cheapest rig, before it costs the same.
struct YardBreakEven {
    YardId cheaper;
    YardId dearer;
    double price_less_per_kg = 0.0;
    double farther_m = 0.0;
};
// The day's work under a change.
struct HaulWhatIf {
    std::string name;
    HaulRange day;
    bool many_days = false;  // more than one day's feed at a time: a caution for young herds
};

struct HaulAccount {
    HaulRequest request;
    std::vector<HaulTrip> trips;  // by pasture, then yard, then rig
    HaulRange day;                // each herd from the yard and with the rig of least cost
    std::vector<RigWork> rigs;
    std::vector<BreakEven> break_evens;
    std::vector<YardBreakEven> yard_break_evens;
    std::optional<double> cost_per_kg_mile;  // of hay from a yard farther off, cheapest rig
    Problems problems;
};

// Each herd fed with `rig`, or with the rig of least cost (time, where money is not known).
[[nodiscard]] HaulRange day_work(const HaulWays& ways, std::optional<RigId> rig);
[[nodiscard]] HaulAccount haul_account(const HaulWays& ways);

// Share of hay wasted that studies give for a rig that was not measured, both methods together:
// 12 to 19 % as the settings stand (Lacombe, Alberta, against North Dakota and Wyoming, which rank
// them the other way).
struct WasteRange {
    double low_ratio = 0.0;
    double high_ratio = 0.0;
};
[[nodiscard]] WasteRange waste_range(const Rig& rig, const Settings& settings);

}  // namespace haylane
