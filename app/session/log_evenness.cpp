#include "app/session/log_evenness.h"

#include "app/session/find_named.h"
#include "core/deposit/deposit_map.h"
#include "core/deposit/evenness.h"
#include "core/season/span.h"

namespace haylane {

namespace {

std::optional<double> cv_with(const Ranch& ranch, const PastureGround& ground,
                              std::vector<Laying> layings, Laying laying) {
    layings.push_back(std::move(laying));
    const DepositMap map = deposit_map(ranch, ground, layings);
    const auto seen = through_window(ground, layer(map, Measure::bales), ranch.settings.window_m);
    const auto figures = evenness(target_values(ground, seen));
    if (!figures) return std::nullopt;
    return figures->cv_ratio;
}

}  // namespace

std::optional<EvennessChange> evenness_change(const OpenRanch& open, const LaidElsewhere& feeding) {
    const Ranch& ranch = open.checked.ranch;
    const auto pasture = find_named(ranch.pastures, feeding.pasture);
    if (!pasture) return std::nullopt;
    const PastureId id = PastureId::at(*pasture);
    const Terrain terrain = ranch.terrain ? Terrain(*ranch.terrain) : Terrain();
    const auto dry =
        feedable_ground(ranch, id, terrain, {.fence_strip_m = ranch.settings.fence_clearance_m});
    if (!dry) return std::nullopt;
    const PastureGround ground = pasture_ground(ranch, id, *dry);
    if (ground.target_cells == 0) return std::nullopt;
    const Span season = season_of(ranch, feeding.date);
    std::vector<Laying> before;
    for (const FeedingRecord& record : ranch.feedings)
        if (record.pasture == id && share_in(record, season) > 0.0)
            before.push_back(laying_of(ranch, record));
    Laying one{.bales = feeding.bales};
    if (const auto rig = find_named(ranch.rigs, feeding.rig)) one.rig = &ranch.rigs[*rig];
    one.shape = feeding.planned;
    const auto planned = cv_with(ranch, ground, before, one);
    one.shape = feeding.laid;
    const auto laid = cv_with(ranch, ground, before, one);
    if (!planned || !laid) return std::nullopt;
    return EvennessChange{*planned, *laid};
}

}  // namespace haylane
