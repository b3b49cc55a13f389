// Method: day by day, head x weight x intake share of the day's stage, raised for cold up to the
// cap; then waste on top, since what is wasted must be laid too. A rancher's bales a day is taken
// as it stands, whatever the weather: the tables' figure is only put beside it.
#include "core/ration/bales_needed.h"

#include "core/base/require.h"
#include "core/ration/cold.h"
#include "core/ration/requirement.h"

#include <algorithm>
#include <chrono>

namespace haylane {
namespace {

struct TableNeed {
    double eaten_kg = 0.0;
    double energy_short_ratio = 0.0;
    bool modelled = true;
};

double intake_ratio(const Ranch& ranch, const Herd& herd, Stage stage) {
    if (herd.intake_ratio) return *herd.intake_ratio;
    return is_lactating(stage) ? ranch.settings.intake_lactating_ratio
                               : ranch.settings.intake_dry_ratio;
}

TableNeed table_need(const Ranch& ranch, const Herd& herd, sys_days first, int days,
                     bool sheltered) {
    TableNeed need;
    const double cap = ranch.settings.cold_cap_ratio;
    for (int i = 0; i < days; ++i) {
        const sys_days day = first + std::chrono::days(i);
        const Stage stage = stage_on(herd, day);
        const double warm_kg = herd.head * herd.weight_kg * intake_ratio(ranch, herd, stage);
        const double rise = cold_need_ratio(ranch, day, sheltered).value_or(0.0);
        need.eaten_kg += warm_kg * (1.0 + std::min(rise, cap));
        need.energy_short_ratio += std::max(0.0, rise - cap) / days;
        need.modelled = need.modelled && (herd.intake_ratio || requirement(stage));
    }
    return need;
}

}  // namespace

FeedNeed feed_need(const Ranch& ranch, HerdId herd_id, sys_days first, int days, double waste_ratio,
                   bool sheltered, double bale_dm_kg) {
    require(days >= 1, "feed_need: at least one day");
    require(waste_ratio >= 0.0 && waste_ratio < 1.0, "feed_need: waste in [0, 1)");
    const Herd& herd = ranch[herd_id];
    const TableNeed table = table_need(ranch, herd, first, days, sheltered);
    FeedNeed need;
    need.table_offered_kg = table.eaten_kg / (1.0 - waste_ratio);
    if (herd.bales_per_day) {
        need.bales = *herd.bales_per_day * days;
        need.offered_kg = *need.bales * bale_dm_kg;
        need.eaten_kg = need.offered_kg * (1.0 - waste_ratio);
    } else {
        need.eaten_kg = table.eaten_kg;
        need.offered_kg = need.table_offered_kg;
        need.modelled = table.modelled;
        need.energy_short_ratio = table.energy_short_ratio;
    }
    if (herd.head > 0) need.intake_kg_per_head_day = need.eaten_kg / herd.head / days;
    return need;
}

}  // namespace haylane
