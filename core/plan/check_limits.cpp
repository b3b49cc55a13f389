// The deposit with lines less the deposit of the same feedings with nothing near their lines is
// what the lines add.
#include "core/plan/check_limits.h"

#include "core/deposit/around_rings.h"
#include "core/deposit/deposit_map.h"
#include "core/deposit/excreta_places.h"
#include "core/plan/ground_limits.h"
#include "core/plan/ground_loads.h"
#include "core/plan/hay_mix.h"
#include "core/plan/plan_context.h"
#include "core/plan/ring_feeding.h"

#include <algorithm>

namespace haylane {

namespace {

constexpr double kTolerance = 1e-6;  // of the limit

DepositSplit split_of(const Ranch& ranch, const PlannedFeeding& feeding) {
    std::vector<LotPick> picks;
    for (const BaleDraw& draw : feeding.bales) picks.push_back({draw.lot, draw.count});
    const HayMix mix = mix_of(ranch, picks);
    return excretion({.dm_offered_kg = mix.dm_kg,
                      .quality = mix.quality,
                      .waste_ratio = waste_ratio_of(ranch, feeding.herd, feeding.rig)},
                     ranch.settings);
}

std::vector<Laying> layings_of(const Ranch& ranch, const Plan& plan, PastureId pasture) {
    std::vector<Laying> layings;
    for (const PlannedFeeding& feeding : plan.feedings) {
        if (feeding.pasture != pasture) continue;
        MultiPolyline hay;
        for (const PlannedLine& line : feeding.lines) {
            const MultiPolyline rings = around_rings(line.places);
            hay.insert(hay.end(), rings.begin(), rings.end());
            if (!feeding.in_rings) hay.push_back(line.path);
        }
        layings.push_back({.shape = hay,
                           .split = split_of(ranch, feeding),
                           .rig = feeding.in_rings ? nullptr : &ranch[feeding.rig],
                           .wind_from_rad = wind_from_rad_on(ranch, feeding.date)});
    }
    return layings;
}

// The most that lines go over their room on target ground; at most 0 when none does.
double most_over_kg(const PastureLoad& load, const NutrientLimit& limit,
                    const Raster<double>& elsewhere, const Nutrients& excreted, double window_m) {
    const auto seen = [&](Raster<double> there, bool with_elsewhere) {
        const double kg = with_elsewhere ? of_measure(excreted, limit.measure) : 0.0;
        for (std::size_t c = 0; c < there.values.size(); ++c)
            there.values[c] += kg * elsewhere.values[c];
        return through_window(load.ground, there, window_m);
    };
    const Raster<double> without_lines = seen(layer(load.before, limit.measure), true);
    const Raster<double> whole = seen(layer(load.after(), limit.measure), false);
    const double most_kg = limit.kg_per_m2 * whole.grid.cell_area_m2();
    double over = 0.0;
    for (std::size_t c = 0; c < whole.values.size(); ++c) {
        if (load.ground.target.values[c] == 0) continue;
        over = std::max(over, whole.values[c] - std::max(most_kg, without_lines.values[c]));
    }
    return over;
}

}  // namespace

std::vector<BrokenRule> broken_limits(const Ranch& ranch, const Plan& plan) {
    std::vector<BrokenRule> broken;
    const bool any = std::any_of(ranch.pastures.begin(), ranch.pastures.end(),
                                 [](const Pasture& p) { return !limits_of(p).empty(); });
    if (!any) return broken;
    PlanContext context(ranch, {});
    auto loads = loads_before(context, plan.from, 0);
    if (!loads) return broken;
    for (PastureLoad& load : *loads) {
        const PastureId pasture = load.ground.pasture;
        const std::vector<Laying> layings = layings_of(ranch, plan, pasture);
        if (layings.empty()) continue;
        load.with_plan = sum(load.before, deposit_map(ranch, load.ground, layings));
        Nutrients excreted;
        for (const Laying& laying : layings) {
            excreted.n_kg += laying.split.excreted.n_kg;
            excreted.p2o5_kg += laying.split.excreted.p2o5_kg;
            excreted.k2o_kg += laying.split.excreted.k2o_kg;
        }
        const Raster<double> elsewhere = excreta_places(ranch, load.ground).elsewhere;
        for (const NutrientLimit& limit : limits_of(ranch[pasture])) {
            const double over =
                most_over_kg(load, limit, elsewhere, excreted, ranch.settings.window_m) /
                load.ground.mask.grid.cell_area_m2();
            if (over > kTolerance * limit.kg_per_m2)
                broken.push_back({"limit", ranch[pasture].name, over});
        }
    }
    return broken;
}

}  // namespace haylane
