#pragma once
// What the book holds and closes, as a plan is asked for: names made into the ranch's own.

#include "app/session/open_ranch.h"
#include "core/plan/user_hand.h"
#include "gis/book/hold_store.h"

namespace haylane {

// A hold whose herd, rig, lot or pasture the ranch no longer has is left out and is a problem,
// "hold_not_used".
struct BookHand {
    UserHand hand;
    Problems problems;
};
[[nodiscard]] BookHand book_hand(const Ranch& ranch, const std::vector<StoredHold>& holds);

// Asks for lines unlike those planned for a herd and day: those of the last plan, and where the
// user had asked for another then, of the plans before it. Errors: "no_plan", those of
// stored_plans.
[[nodiscard]] Result<std::vector<AnotherWay>> another_way(const OpenRanch& open, HerdId herd,
                                                          sys_days day);

}  // namespace haylane
