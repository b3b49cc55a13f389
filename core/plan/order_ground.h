#pragma once
// What laying lines beside one another needs of a schedule: each feeding's ground and loads, the
// way there, each herd's block under way, and the blocks it may open.

#include "core/plan/feed_schedule.h"
#include "core/plan/neighbour_order.h"
#include "core/plan/plan_context.h"

#include <memory>
#include <vector>

namespace haylane {

struct OrderGround {
    std::vector<std::unique_ptr<LineRequest>> requests;  // by feeding; `days` point at them
    std::vector<SiteDay> days;
    std::vector<const TravelMap*> travel;  // by feeding
    std::vector<std::vector<YardId>> yards;
    std::vector<std::size_t> held;
    std::vector<std::size_t> last;  // those that the user wanted elsewhere
    std::vector<OrderChain> chains;
};

// Cost: blocks are cut once a herd and pasture. Errors: geometry_failed.
[[nodiscard]] Result<OrderGround> order_ground(PlanContext& context, const FeedSchedule& schedule,
                                               const PlanRequest& request);
// All must outlive the result.
[[nodiscard]] OrderInput order_input(const LineChoiceInput& choice, const OrderGround& ground,
                                     const FeedSchedule& schedule, const Ranch& ranch);

}  // namespace haylane
