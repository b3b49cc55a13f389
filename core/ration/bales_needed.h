#pragma once
// How much hay a herd is to be offered for some days: eaten, waste on top, cold on top of that, or
// the rancher's own bales a day. Source: docs/methods; intake 2.0 % of body
// weight dry, 2.4 % lactating (midpoints of extension tables, docs/methods).

#include "core/base/day.h"
#include "core/ranch/ranch.h"

#include <optional>
#include <string>

namespace haylane {

struct FeedNeed {
    double eaten_kg = 0.0;    // DM
    double offered_kg = 0.0;  // DM: eaten / (1 - waste)
    // Set when the herd's own bales_per_day rules: bales for the days, may be a fraction.
    std::optional<double> bales;
    double table_offered_kg =
        0.0;  // what the tables would have said (equals offered_kg without bales)
    // false: the tables do not reach this stage on some day and the herd gave neither intake nor
    // bales; the amounts are then a dry cow's of that weight, as a stand-in to be reported.
    bool modelled = true;
    double energy_short_ratio = 0.0;  // cold need above the cap, mean over the days; 0 with bales
    double intake_kg_per_head_day = 0.0;
};

// Need of `herd` for `days` (at least 1) days from `first`. waste_ratio (0 to below 1) is the
// rig's. `sheltered` takes 0.3 of the wind. With bales_per_day, eaten_kg and offered_kg use
// `bale_dm_kg` (DM of a bale fed).
[[nodiscard]] FeedNeed feed_need(const Ranch& ranch, HerdId herd, sys_days first, int days,
                                 double waste_ratio, bool sheltered, double bale_dm_kg);

}  // namespace haylane
