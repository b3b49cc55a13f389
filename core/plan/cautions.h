#pragma once
// The cautions that stand on a feeding's card: crowding, steep ground, water, nitrate, soft ground,
// energy short, short rations, long days.

#include "core/plan/feed_schedule.h"
#include "core/plan/plan.h"
#include "core/plan/plan_context.h"

namespace haylane {

[[nodiscard]] std::vector<Caution> cautions_for(PlanContext& context,
                                                const ScheduledFeeding& feeding,
                                                const PlannedFeeding& planned);

}  // namespace haylane
