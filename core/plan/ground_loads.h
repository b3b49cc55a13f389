#pragma once
// The load that past feedings, and then the plan, put on every pasture's ground; and how even it
// is.

#include "core/base/result.h"
#include "core/plan/feed_schedule.h"
#include "core/plan/plan_context.h"
#include "core/plan/plan_request.h"

#include <vector>

namespace haylane {

// Loads of all pastures from feedings recorded before `from` (within load_seasons when set),
// without the plan. Linear in feedings and cells.
[[nodiscard]] Result<std::vector<PastureLoad>> loads_before(PlanContext& context, sys_days from,
                                                            int threads);
// What a scheduled feeding leaves, by mass, when this share of it blows away as fines: they are
// left on the ground, and the rest is wasted as ever.
[[nodiscard]] DepositSplit split_of(const Ranch& ranch, const ScheduledFeeding& feeding,
                                    double fines_ratio = 0.0);
// Adds planned feedings: one laying each, on the ground of its pasture.
struct PlacedFeeding {
    PastureId pasture;
    Laying laying;
};
void add_to_loads(const Ranch& ranch, const std::vector<PlacedFeeding>& placed,
                  std::vector<PastureLoad>& loads);
// "n", "p2o5" or "k2o"; P2O5 for anything else.
[[nodiscard]] Measure measure_named(const std::string& name);
// CV, CU and low-quarter over target ground; nullopt where nothing lies.
[[nodiscard]] std::optional<EvennessFigures> evenness_figures(const PastureGround& ground,
                                                              const Raster<double>& per_cell,
                                                              double window_m);

}  // namespace haylane
