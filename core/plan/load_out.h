#pragma once
// Splits a feeding's bales into loads: each from one yard, whole bales, at most what the rig
// carries, as few and as equal as can be.

#include "core/plan/feed_schedule.h"

#include <vector>

namespace haylane {

// The yard of each load, in order.
[[nodiscard]] std::vector<YardId> yards_of(const std::vector<ScheduledLoad>& loads);
// The line each load makes at a lay rate, in order.
[[nodiscard]] std::vector<LineRequest::Load> lines_of(const std::vector<ScheduledLoad>& loads,
                                                      double lay_kg_per_m);

[[nodiscard]] std::vector<ScheduledLoad> split_loads(const Ranch& ranch,
                                                     const std::vector<LotPick>& picks,
                                                     int bales_per_trip);

}  // namespace haylane
