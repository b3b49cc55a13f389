#include "app/papers/trial_words.h"

#include "app/papers/words.h"
#include "core/base/units.h"

#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

// The difference counts as it was said: what the one has less is above 0.
std::string surety(const PairedTrial& one, const SpokenMeasure& how, const char* unit) {
    MeanInterval less = one.difference;
    less.mean = std::abs(less.mean);
    switch (one.verdict) {
        case Verdict::not_measured:
            return "";
        case Verdict::one_pair:
            return " One pair only, so no interval can be given.";
        case Verdict::cannot_tell:
            return fmt::format(
                " That may be chance: over {} the true difference likely lies between {}{}.",
                words::counted(less.n, "pair"), how.interval(less), unit);
        case Verdict::differs:
            return fmt::format(" Over {} the true difference likely lies between {}{}.",
                               words::counted(less.n, "pair"), how.interval(less), unit);
    }
    return "";
}

}  // namespace

std::string SpokenMeasure::figure(double si) const {
    const double value = si * factor;
    // No "-0.0".
    const bool none = std::abs(value) < 0.5 * std::pow(10.0, -decimals);
    return fmt::format("{:.{}f}", none ? 0.0 : value, decimals);
}

std::string SpokenMeasure::interval(const MeanInterval& of) const {
    if (!of.half_width) return "-";
    return fmt::format("{} and {}", figure(of.mean - *of.half_width),
                       figure(of.mean + *of.half_width));
}

double ton_kg(bool metric) { return metric ? units::kKgPerTonne : units::kKgPerShortTon; }
std::string ton_word(bool metric) { return metric ? "tonne" : "ton"; }

SpokenMeasure spoken(TrialMeasure measure, bool metric) {
    const double fuel = metric ? 1.0 : 1.0 / units::kLitersPerGallon;
    const double minutes = 1.0 / units::kSecondsPerMinute;
    switch (measure) {
        case TrialMeasure::fuel_l_per_bale:
            return {metric ? "fuel a bale, L" : "fuel a bale, gal", fuel, 2};
        case TrialMeasure::feed_s_per_bale:
            return {"feeding a bale, min", minutes, 1};
        case TrialMeasure::fuel_l_per_kg_dm:
            return {metric ? "fuel a tonne DM, L" : "fuel a ton DM, gal", fuel * ton_kg(metric), 2};
        case TrialMeasure::feed_s_per_kg_dm:
            return {metric ? "feeding a tonne DM, min" : "feeding a ton DM, min",
                    minutes * ton_kg(metric), 1};
        case TrialMeasure::hookup_s:
            return {"hooking on and off, min", minutes, 1};
        case TrialMeasure::cp_lost_ratio:
            return {"protein lost, % of DM", 100.0, 1};
        case TrialMeasure::tdn_lost_ratio:
            return {"TDN lost, % of DM", 100.0, 1};
        case TrialMeasure::drift_downwind_m:
            return {metric ? "fines drift, m" : "fines drift, ft",
                    metric ? 1.0 : 1.0 / units::kMetersPerFoot, 0};
        case TrialMeasure::feed_m_per_s:
            return {
                metric ? "feeding speed, km/h" : "feeding speed, mph",
                metric ? 1.0 / units::kMetersPerSecondPerKmh : 1.0 / units::kMetersPerSecondPerMph,
                2};
    }
    return {};
}

std::string verdict_words(const PairedTrial& one, const RigPair& pair, const SpokenMeasure& how) {
    const std::string& more = one.difference.mean >= 0.0 ? pair.b : pair.a;
    switch (one.verdict) {
        case Verdict::not_measured:
            return "not measured";
        case Verdict::one_pair:
            return "one pair only: no telling";
        case Verdict::cannot_tell:
            return fmt::format("too few or too uneven to tell (likely between {})",
                               how.interval(one.difference));
        case Verdict::differs:
            return fmt::format("{} has more (likely between {})", more,
                               how.interval(one.difference));
    }
    return "";
}

std::vector<std::string> trial_answers(const TrialComparison& trials, bool metric) {
    struct Asked {
        TrialMeasure measure;
        const char* what;
        const char* unit;
    };
    const Asked asked[] = {
        {TrialMeasure::fuel_l_per_bale, "fuel a bale", metric ? " L" : " gal"},
        {TrialMeasure::feed_s_per_bale, "time a bale", " min"},
        {TrialMeasure::hookup_s, "time to hook on and off", " min"},
        {TrialMeasure::cp_lost_ratio, "protein lost", " % of DM"},
    };
    std::vector<std::string> answers;
    for (const RigPair& pair : trials.pairs)
        for (const Asked& ask : asked)
            for (const PairedTrial& one : pair.measures) {
                if (one.measure != ask.measure || !one.change_ratio) continue;
                const SpokenMeasure how = spoken(ask.measure, metric);
                const bool b_less = one.difference.mean < 0.0;
                const double high = b_less ? one.mean_a : one.mean_b;
                const double low = b_less ? one.mean_b : one.mean_a;
                if (high <= 0.0) continue;
                answers.push_back(fmt::format(
                    "{}: {:.0f} % less {} than {} ({} against {}{}).{}", b_less ? pair.b : pair.a,
                    100.0 * (1.0 - low / high), ask.what, b_less ? pair.a : pair.b, how.figure(low),
                    how.figure(high), ask.unit, surety(one, how, ask.unit)));
            }
    return answers;
}

std::string worth_words(const RigTrials& rig, const TrialWords& words) {
    const auto worth = lost_worth_per_kg_dm(rig, words.prices);
    if (!worth) return "";
    std::string text = fmt::format("What is lost is worth {:.2f} a {} of hay DM",
                                   *worth * ton_kg(words.metric), ton_word(words.metric));
    if (words.season_kg) text += fmt::format(", {:.0f} a season", *worth * *words.season_kg);
    return text + ".";
}

}  // namespace haylane
