#pragma once
// How much hay a herd is to be offered for some days: eaten, waste on top, cold on top of that, or
// the rancher's own bales a day. Source: Haylane's model page "feed needed"; intake 2.0 % of body
// weight dry, 2.4 % lactating (midpoints of extension tables, docs/methods).

#include <optional>
#include <string>

#include "core/base/day.h"
#include "core/ranch/ranch.h"

namespace haylane {

struct FeedNeed {
    double eaten_kg = 0.0;    // DM
    double offered_kg = 0.0;  // DM: eaten / (1 - waste)
    // Set when the herd's own bales_per_day rules: bales for the days, may be a fraction.
    std::optional<double> bales;
    double table_offered_kg = 0.0;   // what the tables would have said (equals offered_kg without bales)
    bool modelled = true;            // false: the tables do not reach this stage
    double cold_ratio = 0.0;         // hay added for cold, 0.08 = 8 % more
    double energy_short_ratio = 0.0; // cold need above the cap
    double intake_kg_per_head_day = 0.0;
};

// Need of `herd` for `days` days from `first`. waste_ratio is the rig's. `sheltered` takes 0.3 of
// the wind. With bales_per_day, eaten_kg and offered_kg use `bale_dm_kg` (DM of a bale fed).
[[nodiscard]] FeedNeed feed_need(const Ranch& ranch, HerdId herd, sys_days first, int days,
                                 double waste_ratio, bool sheltered, double bale_dm_kg);

}  // namespace haylane
