#pragma once
// Builds the input of the line choice from a schedule and the load on the ground, and gives each
// feeding its lines, in the order that is asked for.

#include "core/plan/choice_model.h"
#include "core/plan/feed_schedule.h"
#include "core/plan/ground_loads.h"
#include "core/plan/neighbour_order.h"

#include <optional>
#include <vector>

namespace haylane {

struct PlacedLines {
    Candidate lines;
    double above_nearest_s = 0.0;  // driving time above the nearest lines that the rules left
    Yielded yielded = Yielded::nothing;
    std::optional<OrderPlace> place;  // nullopt in free order and for what is by hand
};

struct Placement {
    std::vector<PlacedLines> feedings;  // by feeding of the schedule
    Optimality optimality;              // order_cost is J above that of free order
    // What J is made of, for lines to be moved later: without candidates, shapes and their costs.
    LineChoiceInput input;
    ChoiceModel model;
    Problems problems;  // over_limit_already, and of soil tests
    // Feedings for which no line keeps their pasture's limits: all that have none even by
    // themselves, else the first by date. The placement is of no use unless this is empty.
    std::vector<std::size_t> without_line;
};

// Haul counts as time on the way. Both orders are worked out when neighbour is asked for, since the
// bound and the price of order need the free one.
[[nodiscard]] Result<Placement> place_feedings(PlanContext& context, const FeedSchedule& schedule,
                                               const std::vector<PastureLoad>& loads,
                                               const PlanRequest& request);

}  // namespace haylane
