#pragma once
// Shares a feeding's loads, bale by bale, among lines that are given: each line carries whole bales
// of one load, a load's lines follow one another, and the hay comes out as even along them as it
// can.

#include "core/plan/feed_schedule.h"

#include <optional>
#include <vector>

namespace haylane {

// What one line carries.
struct LineShare {
    int load = 0;
    int bales = 0;
};

// By line, in driving order; loads may come in any order. nullopt when there are fewer lines than
// loads, more lines than bales, or a line without length. Where loads of many
// kinds meet many lines, loads are taken in the order given.
[[nodiscard]] std::optional<std::vector<LineShare>> share_loads(
    const std::vector<ScheduledLoad>& loads, const std::vector<double>& lengths_m);

}  // namespace haylane
