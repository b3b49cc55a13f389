#include "core/trials/compare_trials.h"

#include <algorithm>
#include <map>
#include <utility>

namespace haylane {

namespace {

std::optional<double> over(std::optional<double> value, std::optional<double> by) {
    if (!value || !by || *by <= 0.0) return std::nullopt;
    return *value / *by;
}

// The share lost of the bale's dry matter.
std::optional<double> lost(const HaySample& bale, const HaySample& windrow,
                           std::optional<double> HaySample::*part) {
    const std::optional<double> before = bale.*part;
    const std::optional<double> after = windrow.*part;
    if (!before || !after) return std::nullopt;
    if (!bale.ash_ratio || !windrow.ash_ratio || *bale.ash_ratio >= 1.0 ||
        *windrow.ash_ratio >= 1.0)
        return *before - *after;
    const double organic = 1.0 - *bale.ash_ratio;
    return *before - *after / (1.0 - *windrow.ash_ratio) * organic;
}

std::optional<double> hookup(const TrialRun& run) {
    if (!run.hookup_s && !run.unhook_s) return std::nullopt;
    return run.hookup_s.value_or(0.0) + run.unhook_s.value_or(0.0);
}

std::vector<double> figures(std::span<const TrialRun* const> runs, TrialMeasure measure) {
    std::vector<double> values;
    for (const TrialRun* run : runs)
        if (const auto value = figure_of(*run, measure)) values.push_back(*value);
    return values;
}

RigTrials rig_trials(const std::string& rig, std::span<const TrialRun> runs, double confidence) {
    RigTrials result;
    result.rig = rig;
    std::vector<const TrialRun*> own;
    for (const TrialRun& run : runs) {
        if (run.rig != rig) continue;
        own.push_back(&run);
        result.bales += run.bales;
    }
    result.runs = static_cast<int>(own.size());
    for (const TrialMeasure m : kTrialMeasures)
        result.means.at(static_cast<std::size_t>(m)) = mean_interval(figures(own, m), confidence);
    return result;
}

// What makes two runs partners.
using PairKey = std::pair<std::string, std::optional<sys_days>>;
PairKey key_of(const TrialRun& run) {
    if (!run.pair.empty()) return {"pair " + run.pair, std::nullopt};
    return {"lot " + run.lot, run.date};
}

struct Partners {
    const TrialRun* a = nullptr;
    const TrialRun* b = nullptr;
};

// Runs of one key and rig, in order.
using ByKey = std::map<PairKey, std::map<std::string, std::vector<const TrialRun*>>>;

std::vector<Partners> partners_of(const ByKey& by_key, const std::string& a, const std::string& b) {
    std::vector<Partners> partners;
    for (const auto& [key, by_rig] : by_key) {
        const auto of_a = by_rig.find(a);
        const auto of_b = by_rig.find(b);
        if (of_a == by_rig.end() || of_b == by_rig.end()) continue;
        const std::size_t count = std::min(of_a->second.size(), of_b->second.size());
        for (std::size_t n = 0; n < count; ++n)
            partners.push_back({of_a->second[n], of_b->second[n]});
    }
    return partners;
}

Verdict verdict_of(const MeanInterval& difference) {
    if (difference.n == 0) return Verdict::not_measured;
    if (difference.n == 1) return Verdict::one_pair;
    return difference.spans(0.0) ? Verdict::cannot_tell : Verdict::differs;
}

PairedTrial paired(const std::vector<Partners>& partners, TrialMeasure measure, double confidence) {
    PairedTrial result;
    result.measure = measure;
    std::vector<double> differences;
    for (const Partners& p : partners) {
        const auto of_a = figure_of(*p.a, measure);
        const auto of_b = figure_of(*p.b, measure);
        if (!of_a || !of_b) continue;
        differences.push_back(*of_b - *of_a);
        result.mean_a += *of_a;
        result.mean_b += *of_b;
    }
    result.difference = mean_interval(differences, confidence);
    result.verdict = verdict_of(result.difference);
    if (differences.empty()) return result;
    result.mean_a /= static_cast<double>(differences.size());
    result.mean_b /= static_cast<double>(differences.size());
    if (result.mean_a != 0.0) result.change_ratio = result.difference.mean / result.mean_a;
    return result;
}

}  // namespace

std::string_view to_string(TrialMeasure measure) {
    switch (measure) {
        case TrialMeasure::fuel_l_per_bale:
            return "fuel_l_per_bale";
        case TrialMeasure::feed_s_per_bale:
            return "feed_s_per_bale";
        case TrialMeasure::fuel_l_per_kg_dm:
            return "fuel_l_per_kg_dm";
        case TrialMeasure::feed_s_per_kg_dm:
            return "feed_s_per_kg_dm";
        case TrialMeasure::hookup_s:
            return "hookup_s";
        case TrialMeasure::cp_lost_ratio:
            return "cp_lost_ratio";
        case TrialMeasure::tdn_lost_ratio:
            return "tdn_lost_ratio";
        case TrialMeasure::drift_downwind_m:
            return "drift_downwind_m";
        case TrialMeasure::feed_m_per_s:
            return "feed_m_per_s";
    }
    return "";
}

std::string_view to_string(Verdict verdict) {
    switch (verdict) {
        case Verdict::not_measured:
            return "not_measured";
        case Verdict::one_pair:
            return "one_pair";
        case Verdict::cannot_tell:
            return "cannot_tell";
        case Verdict::differs:
            return "differs";
    }
    return "";
}

std::optional<double> figure_of(const TrialRun& run, TrialMeasure measure) {
    switch (measure) {
        case TrialMeasure::fuel_l_per_bale:
            return over(run.fuel_l, run.bales);
        case TrialMeasure::feed_s_per_bale:
            return over(run.feed_s, run.bales);
        case TrialMeasure::fuel_l_per_kg_dm:
            return over(run.fuel_l, run.dm_kg());
        case TrialMeasure::feed_s_per_kg_dm:
            return over(run.feed_s, run.dm_kg());
        case TrialMeasure::hookup_s:
            return hookup(run);
        case TrialMeasure::cp_lost_ratio:
            return lost(run.in_bale, run.in_windrow, &HaySample::cp_ratio);
        case TrialMeasure::tdn_lost_ratio:
            return lost(run.in_bale, run.in_windrow, &HaySample::tdn_ratio);
        case TrialMeasure::drift_downwind_m:
            return run.drift_downwind_m;
        case TrialMeasure::feed_m_per_s:
            return over(run.line_length_m, run.feed_s);
    }
    return std::nullopt;
}

TrialComparison compare_trials(std::span<const TrialRun> runs, double confidence_ratio) {
    TrialComparison result;
    ByKey by_key;
    for (const TrialRun& run : runs) {
        by_key[key_of(run)][run.rig].push_back(&run);
        const bool known = std::any_of(result.rigs.begin(), result.rigs.end(),
                                       [&](const RigTrials& r) { return r.rig == run.rig; });
        if (!known) result.rigs.push_back(rig_trials(run.rig, runs, confidence_ratio));
    }
    std::vector<const TrialRun*> partnered;
    for (std::size_t a = 0; a < result.rigs.size(); ++a) {
        for (std::size_t b = a + 1; b < result.rigs.size(); ++b) {
            const auto partners = partners_of(by_key, result.rigs[a].rig, result.rigs[b].rig);
            if (partners.empty()) continue;
            RigPair pair{
                result.rigs[a].rig, result.rigs[b].rig, static_cast<int>(partners.size()), {}};
            for (const TrialMeasure m : kTrialMeasures) {
                PairedTrial one = paired(partners, m, confidence_ratio);
                if (one.verdict != Verdict::not_measured) pair.measures.push_back(one);
            }
            for (const Partners& p : partners) {
                partnered.push_back(p.a);
                partnered.push_back(p.b);
            }
            result.pairs.push_back(std::move(pair));
        }
    }
    for (const TrialRun& run : runs)
        if (std::find(partnered.begin(), partnered.end(), &run) == partnered.end())
            result.unpaired.push_back(run.where);
    return result;
}

std::optional<double> lost_worth_per_kg_dm(const RigTrials& rig, const FeedPrices& prices) {
    const MeanInterval& cp = rig[TrialMeasure::cp_lost_ratio];
    const MeanInterval& tdn = rig[TrialMeasure::tdn_lost_ratio];
    std::optional<double> worth;
    if (prices.cp_per_kg && cp.n > 0) worth = *prices.cp_per_kg * cp.mean;
    if (prices.tdn_per_kg && tdn.n > 0) worth = worth.value_or(0.0) + *prices.tdn_per_kg * tdn.mean;
    return worth;
}

}  // namespace haylane
