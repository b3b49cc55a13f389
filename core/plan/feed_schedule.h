#pragma once
// Decides, before any line is chosen, what each herd is fed on each day: pasture, rig, lots, whole
// bales, loads and lay rate. Keeps the running total of hay offered at or ahead of need by less
// than one bale a herd, and never draws more bales than a lot holds.

#include "core/base/result.h"
#include "core/plan/choose_lots.h"
#include "core/plan/ground_need.h"
#include "core/plan/hay_mix.h"
#include "core/plan/plan.h"
#include "core/plan/plan_context.h"
#include "core/plan/plan_request.h"
#include "core/ration/bales_needed.h"

#include <string>
#include <vector>

namespace haylane {

// One trip from one yard, as many bales as the rig carries at most.
struct ScheduledLoad {
    YardId yard;
    std::vector<BaleDraw> draws;
    int bales = 0;
    double hay_kg = 0.0;  // as fed
    Wrap wrap = Wrap::net;
};

struct ScheduledFeeding {
    sys_days date;
    int days = 1;
    HerdId herd;
    PastureId pasture;
    RigId rig;
    FeedNeed need;
    double needed_kg = 0.0;  // DM to offer, what is left of the last feeding counted
    LotChoice lots;
    HayMix mix;  // of the lots: what is offered
    std::vector<ScheduledLoad> loads;
    double lay_kg_per_m = 0.0;
    GroundNeed ground;          // what the lines keep; less than the day asked where a rule yielded
    bool forward_turns = true;  // false: no way of laying leaves room to turn from line to line
    const std::vector<Candidate>* candidates = nullptr;  // never empty; owned by the context
    const std::vector<double>* way_s = nullptr;          // time on the way of each; likewise
    ByHand by_hand = ByHand::no;                         // held: one candidate
};

struct FeedSchedule {
    std::vector<ScheduledFeeding> feedings;  // by date, then herd
    std::vector<int> lots_left;              // bales by lot after the plan
    Problems problems;
};

// A feeding for which an earlier placing of lines found none that keeps its pasture's limits.
struct OverLimit {
    HerdId herd;
    sys_days date;
    PastureId pasture;
    GroundNeed ground;
    bool at_thinnest = false;  // also at the rig's least lay rate
};

// A feeding that is over a limit is laid at the rig's least lay rate; where it is so at that rate
// too, weather and calving give way, then the pasture, as where there is no line. Problems:
// moved_pasture, laid_thinner. Errors: "hay_short" (too little hay for a herd on a date), "no_line"
// (no legal line for a herd on a date in any pasture it may use; the rule is named),
// "yard_unreachable", "held_line_broken" (a held line breaks a rule that never yields; it is
// named), "no_other_line" (none is clearly different from those already seen).
[[nodiscard]] Result<FeedSchedule> feed_schedule(PlanContext& context, const PlanRequest& request,
                                                 const std::vector<OverLimit>& over_limit = {});

// The pasture a herd is in on a day: the last of its moves up to then, else the first listed.
[[nodiscard]] PastureId pasture_on(const Ranch& ranch, HerdId herd, sys_days day);

// "herd Main cows, 2027-01-11, pasture Home Flat": where a problem of that feeding lies.
[[nodiscard]] std::string name_feeding(const Ranch& ranch, HerdId herd, sys_days day,
                                       PastureId pasture);

}  // namespace haylane
