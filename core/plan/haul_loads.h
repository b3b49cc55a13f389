#pragma once
// Turns a scheduled feeding and its chosen lines into loads with ways, miles, minutes, fuel and
// cost.

#include "core/plan/feed_schedule.h"
#include "core/plan/plan.h"
#include "core/plan/plan_context.h"

#include <set>

namespace haylane {

// Rigs already warmed up and hooked up on a day.
using RigsOut = std::set<std::pair<sys_days, RigId>>;

// Fills lines, loads, lengths and lay rate of `planned`. Lines get ids "<date>-<herd number>-<n>".
void haul_loads(PlanContext& context, const ScheduledFeeding& feeding, const Candidate& chosen,
                RigsOut& out, PlannedFeeding& planned);

}  // namespace haylane
