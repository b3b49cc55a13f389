#pragma once
// How trials of rigs are said, on the terminal and on paper: measures with their units, intervals,
// and what two rigs' pairs tell.

#include "core/trials/compare_trials.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct TrialWords {
    bool metric = false;
    FeedPrices prices;                // money a kg
    std::optional<double> season_kg;  // hay dry matter fed in a season
};

// How a measure is said: its name with the unit, what to multiply SI by, decimals.
struct SpokenMeasure {
    const char* name = "";
    double factor = 1.0;
    int decimals = 1;
    [[nodiscard]] std::string figure(double si) const;
    [[nodiscard]] std::string interval(const MeanInterval& of) const;  // "-" where there is none
};
[[nodiscard]] SpokenMeasure spoken(TrialMeasure measure, bool metric);
[[nodiscard]] double ton_kg(bool metric);
[[nodiscard]] std::string ton_word(bool metric);

[[nodiscard]] std::string verdict_words(const PairedTrial& one, const RigPair& pair,
                                        const SpokenMeasure& how);
// Fuel and time of each two rigs, a sentence each: how much less, of what, and how sure that is.
[[nodiscard]] std::vector<std::string> trial_answers(const TrialComparison& trials, bool metric);
// What a rig's lost protein is worth; empty without a price.
[[nodiscard]] std::string worth_words(const RigTrials& rig, const TrialWords& words);

}  // namespace haylane
