#include "core/plan/target_loads.h"

#include <algorithm>
#include <optional>

namespace haylane {

namespace {

// Mean of a layer over feed ground, kg a m2.
double mean_kg_per_m2(const PastureGround& ground, const Raster<double>& per_cell) {
    const Raster<std::uint8_t>& where = ground.target_cells > 0 ? ground.target : ground.mask;
    const std::size_t cells = ground.target_cells > 0 ? ground.target_cells : ground.cells;
    double kg = 0.0;
    for (std::size_t c = 0; c < where.values.size(); ++c)
        if (where.values[c] != 0) kg += per_cell.values[c];
    return cells > 0 ? kg / (static_cast<double>(cells) * where.grid.cell_area_m2()) : 0.0;
}

DepositMap season_map(const Ranch& ranch, const PastureGround& ground, sys_days from) {
    const sys_days since = season_start(from, ranch.settings.season_start);
    std::vector<Laying> layings;
    for (const FeedingRecord& feeding : ranch.feedings) {
        if (feeding.pasture == ground.pasture && feeding.from < from && feeding.to >= since)
            layings.push_back(laying_of(ranch, feeding));
    }
    return layings.empty() ? empty_map(ground) : deposit_map(ranch, ground, layings);
}

}  // namespace

std::vector<TargetLoad> target_loads(const Ranch& ranch, const std::vector<PastureLoad>& loads,
                                     sys_days from) {
    std::vector<TargetLoad> all;
    for (const PastureLoad& load : loads) {
        const NutrientRates& target = ranch[load.ground.pasture].target;
        if (!target.n_kg_per_m2 && !target.p2o5_kg_per_m2 && !target.k2o_kg_per_m2) continue;
        const DepositMap season = season_map(ranch, load.ground, from);
        const auto add = [&](const char* name, Measure measure,
                             const std::optional<double>& wanted_kg_per_m2) {
            if (!wanted_kg_per_m2 || *wanted_kg_per_m2 <= 0.0) return;
            const double before = mean_kg_per_m2(load.ground, layer(season, measure));
            const double planned = mean_kg_per_m2(load.ground, layer(load.after(), measure)) -
                                   mean_kg_per_m2(load.ground, layer(load.before, measure));
            all.push_back({load.ground.pasture, name, *wanted_kg_per_m2, before, before + planned});
        };
        add("n", Measure::n, target.n_kg_per_m2);
        add("p2o5", Measure::p2o5, target.p2o5_kg_per_m2);
        add("k2o", Measure::k2o, target.k2o_kg_per_m2);
    }
    std::stable_sort(all.begin(), all.end(), [](const TargetLoad& a, const TargetLoad& b) {
        return a.after_kg_per_m2 / a.wanted_kg_per_m2 < b.after_kg_per_m2 / b.wanted_kg_per_m2;
    });
    return all;
}

}  // namespace haylane
