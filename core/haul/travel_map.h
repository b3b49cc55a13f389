#pragma once
// Ways from yards to places in pastures: trails cut at crossings, gates, and straight moves inside
// pastures round what may not be driven. Fences are crossed at open gates only.
// Building: visibility graphs once a pasture, one Dijkstra a yard. A query costs a few sight tests.

#include "core/base/problem.h"
#include "core/geometry/polyline.h"
#include "core/ranch/ranch.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

class FreeSpace;

struct TravelConditions {
    sys_days date;
    bool snow = false;
    bool thaw = false;
    std::optional<double> low_c;  // a cold night lets dirt trails carry on thaw days
    double loaded_kg = 0.0;       // rig with load, for trail weight limits; 0 = not asked
    double rig_kg = 0.0;          // empty; for ways of least fuel or cost, as is pto_w
    double pto_w = 0.0;
    std::vector<std::string> blocked;  // names of gates and trails that are shut this morning
};

// What a stretch of a route is driven on; nullopt = open pasture.
struct RoutePart {
    Polyline path;
    std::optional<Surface> surface;
    double length_m = 0.0;
    double speed_m_per_s = 0.0;  // snow counted
};

struct Route {
    std::vector<RoutePart> parts;  // joined end to end
    double length_m = 0.0;
    double drive_s = 0.0;             // moving
    double gate_s = 0.0;              // opening and shutting
    std::vector<std::string> via;     // gates and trails in the order passed
    std::optional<GateId> last_gate;  // into the pasture
    bool checked = true;              // false: no gates or trails known, straight line x 1.3
    [[nodiscard]] double time_s() const { return drive_s + gate_s; }
    [[nodiscard]] Polyline path() const;  // all parts as one line
};
// The same way driven back.
[[nodiscard]] Route reversed(const Route& route);

class TravelMap {
  public:
    TravelMap(const Ranch& ranch, const TravelConditions& conditions);
    ~TravelMap();
    TravelMap(TravelMap&&) noexcept;
    TravelMap& operator=(TravelMap&&) noexcept;
    TravelMap(const TravelMap&) = delete;
    TravelMap& operator=(const TravelMap&) = delete;

    // The way of least time, fuel or cost, as Settings::ways_by asks; nullopt when there is none.
    [[nodiscard]] std::optional<Route> route(YardId yard, PastureId pasture, Point to) const;
    // Its time only; infinity when there is none. Safe to call from several threads.
    [[nodiscard]] double time_s(YardId yard, PastureId pasture, Point to) const;
    // Why a place cannot be reached, one sentence naming the gate or trail. `day` is the day to
    // name when a map stands for several on which the same ways are open.
    [[nodiscard]] std::string why_not(YardId yard, PastureId pasture, sys_days day) const;
    // Gates that open into a pasture (closed ones too).
    [[nodiscard]] std::vector<GateId> gates_of(PastureId pasture) const;
    // Where straight moves in a pasture are driven, and how fast.
    [[nodiscard]] const FreeSpace& space(PastureId pasture) const;
    [[nodiscard]] double field_m_per_s() const;
    // Trails cut at fences without a gate, trails that stop short, and the like.
    [[nodiscard]] const Problems& problems() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace haylane
