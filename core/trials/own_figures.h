#pragma once
// What accepted trials say of one rig, in the form that plans and hauls use instead of the model.

#include "core/ranch/ranch.h"
#include "core/trials/trial_run.h"

#include <span>

namespace haylane {

inline constexpr int kLeastTrials = 3;  // below it the model stands

// Figures that at least kLeastTrials runs of the rig measured; the others stay absent. Track speeds
// of `known` are kept.
[[nodiscard]] OwnFigures own_figures(std::span<const TrialRun> runs, std::string_view rig,
                                     OwnFigures known = {});

}  // namespace haylane
