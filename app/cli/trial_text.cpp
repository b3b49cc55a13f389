#include "app/cli/trial_text.h"

#include "core/base/units.h"
#include "core/trials/own_figures.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using nlohmann::ordered_json;

// How a measure is said: its name with the unit, what to multiply SI by, decimals.
struct Spoken {
    const char* name = "";
    double factor = 1.0;
    int decimals = 1;
};

double ton_kg(bool metric) { return metric ? units::kKgPerTonne : units::kKgPerShortTon; }

Spoken spoken(TrialMeasure measure, bool metric) {
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

std::string figure(double si, const Spoken& how) {
    const double value = si * how.factor;
    // No "-0.0".
    const bool none = std::abs(value) < 0.5 * std::pow(10.0, -how.decimals);
    return fmt::format("{:.{}f}", none ? 0.0 : value, how.decimals);
}

std::string interval(const MeanInterval& of, const Spoken& how) {
    if (!of.half_width) return "-";
    return fmt::format("{} to {}", figure(of.mean - *of.half_width, how),
                       figure(of.mean + *of.half_width, how));
}

std::string counted(int count, const char* what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string rig_text(const RigTrials& rig, const TrialWords& words) {
    std::string text =
        fmt::format("{}: {}, {:g} bales\n", rig.rig, counted(rig.runs, "feeding"), rig.bales);
    text += fmt::format("  {:<26}{:>8}   {:<17}{}\n", "", "mean", "likely between", "feedings");
    for (const TrialMeasure m : kTrialMeasures) {
        const MeanInterval& of = rig[m];
        if (of.n == 0) continue;
        const Spoken how = spoken(m, words.metric);
        text += fmt::format("  {:<26}{:>8}   {:<17}{}\n", how.name, figure(of.mean, how),
                            interval(of, how), of.n);
    }
    if (const auto worth = lost_worth_per_kg_dm(rig, words.prices)) {
        text += fmt::format("  What is lost is worth {:.2f} a {} of hay DM",
                            *worth * ton_kg(words.metric), words.metric ? "tonne" : "ton");
        if (words.season_kg) text += fmt::format(", {:.0f} a season", *worth * *words.season_kg);
        text += ".\n";
    }
    return text;
}

std::string verdict(const PairedTrial& one, const RigPair& pair, const Spoken& how) {
    const std::string& more = one.difference.mean >= 0.0 ? pair.b : pair.a;
    switch (one.verdict) {
        case Verdict::not_measured:
            return "not measured";
        case Verdict::one_pair:
            return "one pair only: no telling";
        case Verdict::cannot_tell:
            return fmt::format("too few or too uneven to tell (likely {})",
                               interval(one.difference, how));
        case Verdict::differs:
            return fmt::format("{} has more (likely {})", more, interval(one.difference, how));
    }
    return "";
}

std::string pair_text(const RigPair& pair, const TrialWords& words) {
    std::string text = fmt::format("{} less {}, {} on the same hay\n", pair.b, pair.a,
                                   counted(pair.pairs, "pair"));
    for (const PairedTrial& one : pair.measures) {
        const Spoken how = spoken(one.measure, words.metric);
        text += fmt::format("  {:<26}{:>8}   {}\n", how.name, figure(one.difference.mean, how),
                            verdict(one, pair, how));
    }
    return text;
}

ordered_json interval_json(const MeanInterval& of) {
    ordered_json json = {{"n", of.n}, {"mean", of.mean}};
    if (of.half_width) {
        json["low"] = of.mean - *of.half_width;
        json["high"] = of.mean + *of.half_width;
    }
    return json;
}

}  // namespace

std::string trial_text(const TrialComparison& trials, const TrialWords& words) {
    std::string text;
    int fewest = kLeastTrials;
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
                            counted(static_cast<int>(trials.unpaired.size()), "feeding"));
    if (fewest < kLeastTrials)
        text += fmt::format("A rig with fewer than {} feedings shows little: feed more by it.\n",
                            kLeastTrials);
    text += "\"Likely between\" holds the true mean 95 times in 100 (Student's t).\n";
    return text;
}

std::string trial_json(const TrialComparison& trials, const TrialWords& words) {
    ordered_json document = {{"format", "haylane-trial/1"},
                             {"rigs", ordered_json::array()},
                             {"pairs", ordered_json::array()},
                             {"unpaired", trials.unpaired}};
    for (const RigTrials& rig : trials.rigs) {
        ordered_json one = {{"rig", rig.rig}, {"feedings", rig.runs}, {"bales", rig.bales}};
        for (const TrialMeasure m : kTrialMeasures)
            if (rig[m].n > 0) one["means"][std::string(to_string(m))] = interval_json(rig[m]);
        if (const auto worth = lost_worth_per_kg_dm(rig, words.prices)) {
            one["lost_worth_per_kg_dm"] = *worth;
            if (words.season_kg) one["lost_worth_per_season"] = *worth * *words.season_kg;
        }
        document["rigs"].push_back(std::move(one));
    }
    for (const RigPair& pair : trials.pairs) {
        ordered_json one = {{"a", pair.a}, {"b", pair.b}, {"pairs", pair.pairs}};
        for (const PairedTrial& measured : pair.measures) {
            ordered_json difference = interval_json(measured.difference);
            difference["verdict"] = to_string(measured.verdict);
            if (measured.change_ratio) difference["change_ratio"] = *measured.change_ratio;
            one["b_less_a"][std::string(to_string(measured.measure))] = std::move(difference);
        }
        document["pairs"].push_back(std::move(one));
    }
    return document.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace haylane
