#pragma once
// What hay blown off the line is worth, as the driving time that costs as much.

#include "core/lines/candidate_lines.h"
#include "core/plan/feed_schedule.h"

namespace haylane {

// At the lots' prices; where one has none, the time to haul so much hay again. 0 while fines are
// off, and for bales in rings. `way_s` is the driving time of the whole feeding.
[[nodiscard]] double lost_hay_s(const Ranch& ranch, const ScheduledFeeding& feeding,
                                const Candidate& lines, double way_s);

}  // namespace haylane
