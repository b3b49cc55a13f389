#pragma once
// What trials of rigs showed, as a rancher reads it on the terminal and as programs do.

#include "core/trials/compare_trials.h"

#include <optional>
#include <string>

namespace haylane {

struct TrialWords {
    bool metric = false;
    FeedPrices prices;                // money a kg
    std::optional<double> season_kg;  // hay dry matter fed in a season
};

[[nodiscard]] std::string trial_text(const TrialComparison& trials, const TrialWords& words);
// "haylane-trial/1", SI as named. Intervals are 95 %.
[[nodiscard]] std::string trial_json(const TrialComparison& trials, const TrialWords& words);

}  // namespace haylane
