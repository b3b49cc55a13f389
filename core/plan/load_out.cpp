#include "core/plan/load_out.h"

#include "core/plan/ring_feeding.h"

#include <algorithm>

namespace haylane {

namespace {

// Every bale of one yard, lot by lot.
std::vector<LotId> bales_of(const Ranch& ranch, const std::vector<LotPick>& picks, YardId yard) {
    std::vector<LotId> bales;
    for (const LotPick& pick : picks) {
        if (ranch[pick.lot].yard == yard)
            bales.insert(bales.end(), static_cast<std::size_t>(pick.count), pick.lot);
    }
    return bales;
}

void put_on(const Ranch& ranch, LotId lot, ScheduledLoad& load) {
    const auto same = std::find_if(load.draws.begin(), load.draws.end(),
                                   [&](const BaleDraw& draw) { return draw.lot == lot; });
    if (same != load.draws.end())
        ++same->count;
    else
        load.draws.push_back({lot, load.yard, 1});
    ++load.bales;
    load.hay_kg += ranch[lot].bale_kg;
    // The slowest wrap to cut stands for the load: twine, then net, then none.
    const Wrap wrap = ranch[lot].wrap;
    if (load.bales == 1 || wrap == Wrap::twine || load.wrap == Wrap::none) load.wrap = wrap;
}

}  // namespace

LinesAsked lines_asked(const Ranch& ranch, const ScheduledFeeding& feeding, double lay_kg_per_m) {
    LinesAsked asked{.pasture = feeding.pasture,
                     .rig = &ranch[feeding.rig],
                     .date = feeding.date,
                     .ground = feeding.ground,
                     .loads = {},
                     .forward_turns = feeding.forward_turns,
                     .in_rings = is_fed_in_rings(ranch, feeding.herd)};
    for (const ScheduledLoad& load : feeding.loads)
        asked.loads.push_back({load.bales, load.hay_kg / lay_kg_per_m});
    return asked;
}

std::vector<YardId> yards_of(const std::vector<ScheduledLoad>& loads) {
    std::vector<YardId> yards;
    yards.reserve(loads.size());
    for (const ScheduledLoad& load : loads) yards.push_back(load.yard);
    return yards;
}

std::vector<ScheduledLoad> split_loads(const Ranch& ranch, const std::vector<LotPick>& picks,
                                       int bales_per_trip) {
    std::vector<ScheduledLoad> loads;
    for (std::size_t y = 0; y < ranch.yards.size(); ++y) {
        const std::vector<LotId> bales = bales_of(ranch, picks, YardId::at(y));
        if (bales.empty()) continue;
        const std::size_t most = static_cast<std::size_t>(std::max(1, bales_per_trip));
        const std::size_t trips = (bales.size() + most - 1) / most;
        std::size_t next = 0;
        for (std::size_t t = 0; t < trips; ++t) {
            const std::size_t share = (bales.size() - next + (trips - t) - 1) / (trips - t);
            ScheduledLoad load{.yard = YardId::at(y)};
            for (std::size_t k = 0; k < share; ++k) put_on(ranch, bales[next++], load);
            loads.push_back(std::move(load));
        }
    }
    return loads;
}

}  // namespace haylane
