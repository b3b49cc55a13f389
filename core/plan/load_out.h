#pragma once
// Splits a feeding's bales into loads: each from one yard, whole bales, at most what the rig
// carries, as few and as equal as can be.

#include "core/plan/feed_schedule.h"

#include <vector>

namespace haylane {

// The yard of each load, in order.
[[nodiscard]] std::vector<YardId> yards_of(const std::vector<ScheduledLoad>& loads);
// Lines for the feeding's loads, at a lay rate.
[[nodiscard]] LinesAsked lines_asked(const Ranch& ranch, const ScheduledFeeding& feeding,
                                     double lay_kg_per_m);

[[nodiscard]] std::vector<ScheduledLoad> split_loads(const Ranch& ranch,
                                                     const std::vector<LotPick>& picks,
                                                     int bales_per_trip);

}  // namespace haylane
