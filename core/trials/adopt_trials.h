#pragma once
// Makes the trials that a book keeps into its rigs' own figures.

#include "core/ranch/ranch.h"
#include "core/trials/trial_table.h"

namespace haylane {

// Sets Rig::own of each rig that has kLeastTrials runs or more; what its tracks showed is kept. The
// problems are those of trial_table, and trial_of_unknown_rig for runs of a rig that the ranch has
// not. Cost: n log n in the rows.
[[nodiscard]] Problems adopt_trials(std::span<const RawRow> rows, Ranch& ranch);

}  // namespace haylane
