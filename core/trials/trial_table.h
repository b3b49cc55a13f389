#pragma once
// Rows of a trial table made into runs; what cannot be true is named and that row or cell left out.

#include "core/base/problem.h"
#include "core/ranch/raw_ranch.h"
#include "core/trials/trial_run.h"

#include <span>
#include <vector>

namespace haylane {

struct TrialTable {
    std::vector<TrialRun> runs;  // in the order of the rows
    // A row left out: trial_without_rig, trial_without_bales, trial_twice (a row that says in all
    // columns what an earlier one says). A cell left out: trial_not_positive, trial_share (a share
    // outside 0 to 1), bad_date. Used, but worth knowing: fuel_twice (the weighed figure is taken),
    // feed_twice (the total is taken).
    Problems problems;
};

// Columns as in the book: rig, lot, date, pair, bales, bale_kg, hookup_s, unhook_s, feed_s or
// feed_s_per_bale, fuel_kg (weighed) or fuel_l, fuel_temp_c, bale_*_ratio and windrow_*_ratio of
// dm, cp, tdn and ash, wind_m_per_s, line_length_m, drift_downwind_m. Cost: n log n in the rows.
[[nodiscard]] TrialTable trial_table(std::span<const RawRow> rows);

}  // namespace haylane
