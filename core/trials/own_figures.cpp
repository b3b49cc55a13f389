#include "core/trials/own_figures.h"

#include "core/trials/compare_trials.h"

#include <algorithm>
#include <vector>

namespace haylane {

OwnFigures own_figures(std::span<const TrialRun> runs, std::string_view rig, OwnFigures known) {
    std::vector<TrialRun> own;
    std::optional<sys_days> newest = known.newest;
    for (const TrialRun& run : runs) {
        if (run.rig != rig) continue;
        own.push_back(run);
        if (run.date && (!newest || *run.date > *newest)) newest = run.date;
    }
    if (static_cast<int>(own.size()) < kLeastTrials) return known;
    known.trials = static_cast<int>(own.size());
    known.newest = newest;
    const RigTrials all = compare_trials(own).rigs.front();
    const auto take = [&](TrialMeasure measure, std::optional<double>& into) {
        if (all[measure].n >= kLeastTrials) into = all[measure].mean;
    };
    take(TrialMeasure::feed_s_per_bale, known.feed_s_per_bale);
    take(TrialMeasure::fuel_l_per_bale, known.feed_l_per_bale);
    take(TrialMeasure::hookup_s, known.hookup_s);
    take(TrialMeasure::cp_lost_ratio, known.cp_lost_ratio);
    take(TrialMeasure::tdn_lost_ratio, known.tdn_lost_ratio);
    take(TrialMeasure::drift_downwind_m, known.drift_downwind_m);
    if (!known.feed_m_per_s) take(TrialMeasure::feed_m_per_s, known.feed_m_per_s);
    return known;
}

}  // namespace haylane
