#pragma once
// Looks a finished plan over against the rules that never yield, from the ranch's own shapes and
// tables and not from the planner's intermediate results. Empty for a sound plan.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <string>
#include <vector>

namespace haylane {

struct BrokenRule {
    std::string rule;   // "fence", "setback", "slope", "straight", "curvature", "spacing", ...
    std::string where;  // line id or herd and date
    double by = 0.0;    // how much, in the rule's own unit
};

// Lines are sampled every metre. Spacing is only asked where the plan does not say it gave way.
[[nodiscard]] std::vector<BrokenRule> check_plan(const Ranch& ranch, const Plan& plan);

}  // namespace haylane
