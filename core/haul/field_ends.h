#pragma once
// Where a way meets a line inside a pasture: the rig turns forward from the way into the line and
// from its end back onto the way, no sharper than it can, off hay laid that day. Ranch frame,
// metres.

#include "core/geometry/region.h"
#include "core/geometry/visibility.h"
#include "core/haul/travel_map.h"

namespace haylane {

// What a rig may turn on, and how tightly.
struct TurnGround {
    double radius_m = 0.0;
    const Region* drivable = nullptr;  // for the tractor's path in turns
    const FreeSpace* space = nullptr;  // for straight moves
    double field_m_per_s = 0.0;
};

struct FieldWay {
    Route route;
    bool turns = true;    // false: the way meets the line at a corner, no forward turn was found
    bool off_hay = true;  // false: every way found drives over hay
};

// The way out from a yard, which ends at the line's start, with a turn into the line; and the way
// back, which begins at its end, with a turn out of it. `hay` is what lies there by then (for the
// way back the load's own lines too). The way goes round hay where it must and can. Gates and
// trails passed before the pasture stay. Cost: a few hundred turn paths; a search of shortest ways
// where hay lies across.
[[nodiscard]] FieldWay way_in(const Route& out, const Polyline& line, const MultiPolyline& hay,
                              const TurnGround& ground);
[[nodiscard]] FieldWay way_out(const Route& back, const Polyline& line, const MultiPolyline& hay,
                               const TurnGround& ground);

// The shortest way from a to b by straight moves that stays beside hay; it may come up to hay at b,
// `near_b_m` before it. nullopt when there is none. Cost: a sight test each two turning points.
[[nodiscard]] std::optional<Polyline> way_round_hay(const FreeSpace& space, Point a, Point b,
                                                    const MultiPolyline& hay, double near_b_m);

}  // namespace haylane
