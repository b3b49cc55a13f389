#pragma once
// How long the hay lasts at the coming need, as a range, and how many bales are short of turn-out.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

namespace haylane {

// Hay on hand in `left` (bales by lot after the plan) fed from `day` on to all herds. The range
// comes from waste (the method's published spread), bale weights (10 % guessing error) and cold.
struct HayLastsResult {
    HayLasts lasts;
    std::vector<std::optional<sys_days>> runs_out;  // by lot, at the mean rate, feed_first first
};
[[nodiscard]] HayLastsResult hay_lasts(const Ranch& ranch, const std::vector<int>& left,
                                       sys_days day);

}  // namespace haylane
