#pragma once
// A feeding that the user holds, as the schedule takes it: its bales, its lines as the only
// candidate, and what there is to say about it.

#include "core/plan/feed_schedule.h"
#include "core/plan/plan_context.h"

#include <string>

namespace haylane {

// The bales that are held. Error "hay_short" when the offers no longer have them.
[[nodiscard]] Result<LotChoice> held_lots(const Ranch& ranch, const HeldFeeding& held,
                                          const LotRequest& request);
// Fills lay rate, candidate and by_hand of a feeding whose loads are settled; habits that the lines
// do not keep are problems. Errors: "held_line_broken" (each rule that never yields is named),
// "geometry_failed".
[[nodiscard]] Result<ScheduledFeeding> lay_held(PlanContext& context, const HeldFeeding& held,
                                                ScheduledFeeding feeding, Problems& problems);
[[nodiscard]] Error held_line_error(const std::string& rules, const std::string& where);
// Problems for what is held on days of the plan on which nothing is due (days on record are past),
// and for another way asked for where a line is held.
void note_unused_holds(const Ranch& ranch, const PlanRequest& request, FeedSchedule& schedule);

}  // namespace haylane
