#include "core/plan/lost_hay.h"

#include "core/plan/laying_wind.h"
#include "core/plan/rank_rigs.h"

#include <optional>

namespace haylane {

namespace {

// What the feeding's hay is worth; nullopt where some lot has no price.
std::optional<double> worth(const Ranch& ranch, const ScheduledFeeding& feeding) {
    double sum = 0.0;
    for (const LotPick& pick : feeding.lots.picks) {
        const HayLot& lot = ranch[pick.lot];
        if (!lot.price_per_kg) return std::nullopt;
        sum += pick.count * lot.bale_kg * *lot.price_per_kg;
    }
    return sum;
}

}  // namespace

double lost_hay_s(const Ranch& ranch, const ScheduledFeeding& feeding, const Candidate& lines,
                  double way_s) {
    if (lines.in_rings) return 0.0;
    const Rig& rig = ranch[feeding.rig];
    const double ratio = fines_ratio(ranch, rig, feeding.date, paths_of(lines));
    if (ratio <= 0.0) return 0.0;
    const auto hay = worth(ranch, feeding);
    return ratio * (hay ? *hay / driving_cost_per_s(ranch.settings, rig) : way_s);
}

}  // namespace haylane
