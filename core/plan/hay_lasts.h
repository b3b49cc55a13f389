#pragma once
// How long the hay lasts at the coming need, as a range, and how many bales are short of turn-out.

#include "core/base/day.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <optional>
#include <vector>

namespace haylane {

// earliest <= latest: the last day on which every herd can still be fed in full, in a hungry and in
// a sparing winter; nullopt when that lies past the last day looked at (turn-out, or 400 days when
// none is set) or nothing is ever needed. The day before the first when it cannot be fed. Short
// bales (rounded up) are given when turn-out is set and not before `day`, 0 when the hay reaches
// it.
struct HayLastsResult {
    HayLasts lasts;
    // By lot, in the middle case, feed_first first: the day its last hay is fed; the day before the
    // first for a lot already empty; nullopt when hay is left at the end.
    std::vector<std::optional<sys_days>> runs_out;
};

// Hay on hand in `left` (bales by lot after the plan) fed from `day` on to all herds until the day
// before turn-out. The range comes from waste (the method's published spread), bale weights (10 %
// guessing error) and cold beyond the weather that is known.
// Cost: days x herds x lots.
[[nodiscard]] HayLastsResult hay_lasts(const Ranch& ranch, const std::vector<int>& left,
                                       sys_days day);

}  // namespace haylane
