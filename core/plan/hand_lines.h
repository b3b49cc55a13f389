#pragma once
// Lines drawn or moved by hand as a way to lay a scheduled feeding: its loads shared among them,
// and in plain words every rule that they break or that gives way for them.

#include "core/plan/feed_schedule.h"
#include "core/plan/plan_context.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct HandLines {
    Candidate lines;            // none where the loads cannot be shared among them
    double lay_kg_per_m = 0.0;  // as fed, mean of all lines
    double way_s = 0.0;         // driving time of all loads; infinity: no way
    GroundNeed ground;          // what of the day's weather and calving they keep
    // One sentence a rule. Never yields: fence, setbacks, slope, soft and closed ground, bends, lay
    // rate, a way in. Yields: starts near gates, spacing and crossing among the feeding's own
    // lines.
    std::vector<std::string> broken;
    std::vector<std::string> yielded;
    [[nodiscard]] bool may_be_laid() const { return broken.empty(); }
};

// `drawn` in driving order. A line off its chord by 0.3 m at most is laid straight; one that bends
// gets vertices at most 2 m apart and its kinks rounded as far as needed (up to 16 m to each side).
// Everything of `feeding` but its candidates and lay rate must be decided. Errors: geometry_failed.
[[nodiscard]] Result<HandLines> hand_lines(PlanContext& context, const ScheduledFeeding& feeding,
                                           const MultiPolyline& drawn);

// The pasture that holds the middle of the first line; nullopt when none does.
[[nodiscard]] std::optional<PastureId> pasture_under(const Ranch& ranch,
                                                     const MultiPolyline& lines);

}  // namespace haylane
