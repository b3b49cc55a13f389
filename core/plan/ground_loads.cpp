#include "core/plan/ground_loads.h"

#include "core/base/parallel.h"
#include "core/deposit/evenness.h"
#include "core/plan/ring_feeding.h"

namespace haylane {

namespace {

// First day whose feedings count: load_seasons back from the season of `from`, or all.
std::optional<sys_days> first_counted(const Settings& s, sys_days from) {
    const int seasons = static_cast<int>(s.load_seasons);
    if (seasons <= 0) return std::nullopt;
    const std::chrono::year_month_day start{season_start(from, s.season_start)};
    return in_year(s.season_start, start.year() - std::chrono::years{seasons - 1});
}

std::vector<std::vector<Laying>> past_layings(const Ranch& ranch, sys_days from) {
    std::vector<std::vector<Laying>> layings(ranch.pastures.size());
    const auto first = first_counted(ranch.settings, from);
    for (const FeedingRecord& feeding : ranch.feedings) {
        if (feeding.from >= from || (first && feeding.to < *first)) continue;
        layings[feeding.pasture.index()].push_back(laying_of(ranch, feeding));
    }
    return layings;
}

}  // namespace

Result<std::vector<PastureLoad>> loads_before(PlanContext& context, sys_days from, int threads) {
    const Ranch& ranch = context.ranch();
    std::vector<const FeedableGround*> dry(ranch.pastures.size());
    for (std::size_t p = 0; p < dry.size(); ++p) {
        const auto ground = context.dry_ground(PastureId::at(p));
        if (!ground) return fail(ground.error());
        dry[p] = *ground;
    }
    const auto layings = past_layings(ranch, from);
    std::vector<PastureLoad> loads(ranch.pastures.size());
    parallel_for(loads.size(), threads, [&](std::size_t p) {
        loads[p].ground = pasture_ground(ranch, PastureId::at(p), *dry[p]);
        loads[p].before = layings[p].empty() ? empty_map(loads[p].ground)
                                             : deposit_map(ranch, loads[p].ground, layings[p]);
    });
    return loads;
}

DepositSplit split_of(const Ranch& ranch, const ScheduledFeeding& feeding, double fines_ratio) {
    const double waste = waste_ratio_of(ranch, feeding.herd, feeding.rig);
    return excretion({.dm_offered_kg = feeding.mix.dm_kg,
                      .quality = feeding.mix.quality,
                      .waste_ratio = fines_ratio + (1.0 - fines_ratio) * waste,
                      .intake_kg_per_head_day = feeding.need.intake_kg_per_head_day},
                     ranch.settings);
}

void add_to_loads(const Ranch& ranch, const std::vector<PlacedFeeding>& placed,
                  std::vector<PastureLoad>& loads) {
    for (std::size_t p = 0; p < loads.size(); ++p) {
        std::vector<Laying> here;
        for (const PlacedFeeding& feeding : placed) {
            if (feeding.pasture.index() == p) here.push_back(feeding.laying);
        }
        if (!here.empty())
            loads[p].with_plan = sum(loads[p].before, deposit_map(ranch, loads[p].ground, here));
    }
}

Measure measure_named(const std::string& name) {
    if (name == "n") return Measure::n;
    return name == "k2o" ? Measure::k2o : Measure::p2o5;
}

std::optional<EvennessFigures> evenness_figures(const PastureGround& ground,
                                                const Raster<double>& per_cell, double window_m) {
    const auto values = target_values(ground, through_window(ground, per_cell, window_m));
    const auto found = evenness(values);
    if (!found) return std::nullopt;
    return EvennessFigures{found->cv_ratio, found->cu_ratio, found->low_quarter_ratio};
}

}  // namespace haylane
