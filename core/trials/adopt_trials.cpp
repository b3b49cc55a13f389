#include "core/trials/adopt_trials.h"

#include "core/trials/own_figures.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

Problems adopt_trials(std::span<const RawRow> rows, Ranch& ranch) {
    TrialTable table = trial_table(rows);
    for (const TrialRun& run : table.runs) {
        if (std::any_of(ranch.rigs.begin(), ranch.rigs.end(),
                        [&](const Rig& rig) { return rig.name == run.rig; }))
            continue;
        table.problems.push_back(
            {"trial_of_unknown_rig", Severity::warning, run.where,
             fmt::format("the ranch has no rig called '{}', so what it showed is used by no plan.",
                         run.rig),
             "Write the rig's name as in the table of rigs."});
    }
    for (Rig& rig : ranch.rigs) rig.own = own_figures(table.runs, rig.name, rig.own);
    return table.problems;
}

}  // namespace haylane
