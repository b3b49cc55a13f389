#pragma once
// Turns a scheduled feeding and its chosen lines into loads with ways, miles, minutes, fuel and
// cost: driven forward from line to line and into and out of the lines, off hay laid that day.

#include "core/plan/feed_schedule.h"
#include "core/plan/plan.h"
#include "core/plan/plan_context.h"

#include <map>
#include <set>

namespace haylane {

// What a day's loads have done so far.
struct DaysWork {
    std::set<std::pair<sys_days, RigId>> rigs_out;  // warmed up and hooked up
    std::map<sys_days, MultiPolyline> hay;          // laid, of all herds
    // A feeding that was done.
    void add(const ScheduledFeeding& feeding, const Candidate& lines);
};

// Fills lines, loads, lengths and lay rate of `planned`, and adds to what its day has done. Lines
// get ids "<date>-<herd number>-<n>"; rows of rings as well, but no load lists them. Gives cautions
// where no forward turn was found, or no way off hay laid that day. Errors: geometry_failed.
[[nodiscard]] Result<std::vector<Caution>> haul_loads(PlanContext& context,
                                                      const ScheduledFeeding& feeding,
                                                      const Candidate& chosen, DaysWork& work,
                                                      PlannedFeeding& planned);

}  // namespace haylane
