#pragma once
// The user's hand on a plan: feedings that stay as they are, ground closed to hay for some days,
// and lines to be other than those already seen. Plain values, ranch frame; and what they say of
// one herd, day or pasture.

#include "core/plan/plan.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane {

// A feeding laid where the user says; all others are planned around it. The lay rate follows from
// the lines' length. Rules that never yield hold for it as for any other.
struct HeldFeeding {
    HerdId herd;
    sys_days date;
    MultiPolyline lines;          // in driving order; they say the pasture
    std::vector<BaleDraw> bales;  // by lot (the yard is the lot's); none: what the herd needs
    std::optional<RigId> rig;     // nullopt: the cheapest that can lay these lines
};

// No hay is laid on it; it may be driven over, and a line may run along its edge.
struct ForbiddenGround {
    std::string name;
    MultiPolygon area;  // valid
    sys_days from;      // both days included
    sys_days to;
    std::optional<PastureId> pasture;  // nullopt: in every pasture
};

// Asks for the best lines that are clearly different from these.
struct AnotherWay {
    HerdId herd;
    sys_days date;
    MultiPolyline unlike;
};

struct UserHand {
    std::vector<HeldFeeding> held;  // at most one a herd and day; the last one counts
    std::vector<ForbiddenGround> forbidden;
    std::vector<AnotherWay> another;  // several of one herd and day: unlike each of them
};

// nullptr when nothing is held for that herd and day.
[[nodiscard]] const HeldFeeding* held_on(const UserHand& hand, HerdId herd, sys_days day);
// What is closed in a pasture on a day, in the order given.
[[nodiscard]] std::vector<const ForbiddenGround*> forbidden_on(const UserHand& hand,
                                                               PastureId pasture, sys_days day);
// Lines that a herd's feeding of a day must be unlike.
[[nodiscard]] std::vector<const MultiPolyline*> unlike_on(const UserHand& hand, HerdId herd,
                                                          sys_days day);

// Whether a driver would call it another place: the lines' middle (of all their length) lies more
// than three spacings away, or the longest line's direction, whichever way it is driven, differs by
// more than 30 degrees (both assumptions). True when either has no line.
[[nodiscard]] bool are_clearly_different(const MultiPolyline& a, const MultiPolyline& b,
                                         double spacing_m);

}  // namespace haylane
