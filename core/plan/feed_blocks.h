#pragma once
// The blocks that a herd's feedings on one ground may open. Ranch frame, metres.

#include "core/lines/site_lines.h"
#include "core/plan/feed_schedule.h"

#include <vector>

namespace haylane {

// How much line a day takes.
struct DayLength {
    double total_m = 0.0;
    double longest_m = 0.0;  // of its loads
    double bales_per_m = 0.0;
};
[[nodiscard]] DayLength length_of(const LineRequest& request);

struct BlocksAsked {
    const ScheduledFeeding& first;
    SiteDay day;         // the first feeding's
    DayLength greatest;  // of all feedings
};
// Swaths are as long as a day's lines end to end, or as its longest load where the ground then
// holds more; on ground in the lee, which comes in small pieces, as long as leaves room for the
// first day. `options` give the spacing.
[[nodiscard]] std::vector<Site> feed_blocks(const BlocksAsked& asked, const SiteOptions& options,
                                            double site_days);
// Room for lines, each block counted once. Sites as feed_blocks gives them.
[[nodiscard]] double room_in_m(const std::vector<Site>& sites);

}  // namespace haylane
