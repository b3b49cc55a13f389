#pragma once
// Looks a finished plan over against the rules that never yield, from the ranch's own shapes and
// tables and not from the planner's intermediate results. Empty for a sound plan.

#include "core/ground/terrain.h"
#include "core/plan/user_hand.h"
#include "core/ranch/ranch.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct BrokenRule {
    std::string rule;   // "fence", "setback", "slope", "straight", "curvature", "spacing", ...
    std::string where;  // line id or herd and date
    double by = 0.0;    // how much, in the rule's own unit
    std::string what;   // of the ground's rules: the off-limits, soft or closed ground's name
};

// Whose line it is and where it is to lie.
struct LinePlace {
    PastureId pasture;
    RigId rig;
    sys_days date;
};
// The first rule of the ground that a line breaks: "feed", "fence", "fence_strip", "setback",
// "slope" (`by` is the slope), "soft" or "closed"; `where` is empty. Sampled every metre.
[[nodiscard]] std::optional<BrokenRule> broken_ground_rule(const Ranch& ranch,
                                                           const Terrain& terrain,
                                                           const UserHand& hand,
                                                           const LinePlace& place,
                                                           const Polyline& line);

// Lines are sampled every metre. Spacing is only asked where the plan does not say it gave way.
[[nodiscard]] std::vector<BrokenRule> check_plan(const Ranch& ranch, const Plan& plan,
                                                 const UserHand& hand = {});

}  // namespace haylane
