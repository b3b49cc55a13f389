#include "app/cli/trial_text.h"

#include "app/papers/words.h"
#include "core/trials/own_figures.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

namespace {

std::string rig_text(const RigTrials& rig, const TrialWords& words) {
    std::string text = fmt::format("{}: {}, {:g} bales\n", rig.rig,
                                   words::counted(rig.runs, "feeding"), rig.bales);
    text += fmt::format("  {:<26}{:>8}   {:<17}{}\n", "", "mean", "likely between", "feedings");
    for (const TrialMeasure m : kTrialMeasures) {
        const MeanInterval& of = rig[m];
        if (of.n == 0) continue;
        const SpokenMeasure how = spoken(m, words.metric);
        text += fmt::format("  {:<26}{:>8}   {:<17}{}\n", how.name, how.figure(of.mean),
                            how.interval(of), of.n);
    }
    const std::string worth = worth_words(rig, words);
    if (!worth.empty()) text += "  " + worth + "\n";
    return text;
}

std::string pair_text(const RigPair& pair, const TrialWords& words) {
    std::string text = fmt::format("{} less {}, {} on the same hay\n", pair.b, pair.a,
                                   words::counted(pair.pairs, "pair"));
    for (const PairedTrial& one : pair.measures) {
        const SpokenMeasure how = spoken(one.measure, words.metric);
        text += fmt::format("  {:<26}{:>8}   {}\n", how.name, how.figure(one.difference.mean),
                            verdict_words(one, pair, how));
    }
    return text;
}

}  // namespace

std::string trial_text(const TrialComparison& trials, const TrialWords& words) {
    std::string text;
    int fewest = kLeastTrials;
    for (const std::string& answer : trial_answers(trials, words.metric)) text += answer + "\n";
    if (!text.empty()) text += "\n";
    for (const RigTrials& rig : trials.rigs) {
        text += rig_text(rig, words) + "\n";
        fewest = std::min(fewest, rig.runs);
    }
    for (const RigPair& pair : trials.pairs) text += pair_text(pair, words) + "\n";
    if (trials.pairs.empty() && trials.rigs.size() > 1)
        text +=
            "No two rigs fed the same hay on the same day, so they are not compared.\n"
            "Give such feedings the same word in the column pair.\n\n";
    if (!trials.pairs.empty() && !trials.unpaired.empty())
        text += fmt::format("{} without a partner.\n",
                            words::counted(static_cast<int>(trials.unpaired.size()), "feeding"));
    if (fewest < kLeastTrials)
        text += fmt::format("A rig with fewer than {} feedings shows little: feed more by it.\n",
                            kLeastTrials);
    text += "\"Likely between\" holds the true mean 95 times in 100 (Student's t).\n";
    return text;
}

}  // namespace haylane
