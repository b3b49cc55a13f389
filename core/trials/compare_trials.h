#pragma once
// What weighed and timed feedings say of each rig, and of two rigs set against one another on the
// same hay: means with Student-t intervals, and whether that is enough to tell them apart.

#include "core/trials/mean_interval.h"
#include "core/trials/trial_run.h"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace haylane {

// What is compared: SI, as named.
enum class TrialMeasure {
    fuel_l_per_bale,
    feed_s_per_bale,
    fuel_l_per_kg_dm,
    feed_s_per_kg_dm,
    hookup_s,       // on and off
    cp_lost_ratio,  // of dry matter: in the bale less in the windrow
    tdn_lost_ratio,
    drift_downwind_m,
    feed_m_per_s
};
inline constexpr std::array kTrialMeasures{
    TrialMeasure::fuel_l_per_bale,  TrialMeasure::feed_s_per_bale,  TrialMeasure::fuel_l_per_kg_dm,
    TrialMeasure::feed_s_per_kg_dm, TrialMeasure::hookup_s,         TrialMeasure::cp_lost_ratio,
    TrialMeasure::tdn_lost_ratio,   TrialMeasure::drift_downwind_m, TrialMeasure::feed_m_per_s};
[[nodiscard]] std::string_view to_string(TrialMeasure measure);

// A run's figure; none where it was not measured. Where both samples of a run tell ash, CP and TDN
// are compared as shares of organic matter, so that soil in the windrow does not count as loss, and
// given back as shares of the bale's dry matter.
[[nodiscard]] std::optional<double> figure_of(const TrialRun& run, TrialMeasure measure);

struct RigTrials {
    std::string rig;
    int runs = 0;
    double bales = 0.0;
    std::array<MeanInterval, kTrialMeasures.size()> means;  // by measure
    [[nodiscard]] const MeanInterval& operator[](TrialMeasure m) const {
        return means.at(static_cast<std::size_t>(m));
    }
};

enum class Verdict {
    not_measured,
    one_pair,     // no interval can be given
    cannot_tell,  // the interval holds 0
    differs
};
[[nodiscard]] std::string_view to_string(Verdict verdict);

// Rig b less rig a, over runs that are pairs.
struct PairedTrial {
    TrialMeasure measure = TrialMeasure::fuel_l_per_bale;
    double mean_a = 0.0;  // over the pairs
    double mean_b = 0.0;
    MeanInterval difference;
    Verdict verdict = Verdict::not_measured;
    // difference / mean_a; none where mean_a is 0.
    std::optional<double> change_ratio;
};
struct RigPair {
    std::string a;
    std::string b;
    int pairs = 0;
    std::vector<PairedTrial> measures;  // those measured in one pair at least, by measure
};

struct TrialComparison {
    std::vector<RigTrials> rigs;        // in order of first run
    std::vector<RigPair> pairs;         // every two rigs that share a pair, in that order
    std::vector<std::string> unpaired;  // where: runs without a partner
};

// Runs are pairs that have the same mark `pair`; without a mark, the same lot and date (of several,
// the first of each rig, then the second, ...). Cost: runs squared.
[[nodiscard]] TrialComparison compare_trials(std::span<const TrialRun> runs,
                                             double confidence_ratio = 0.95);

// What feed lost between bale and windrow is worth: money a kg of hay dry matter.
struct FeedPrices {
    std::optional<double> cp_per_kg;   // of a kg of crude protein bought as supplement
    std::optional<double> tdn_per_kg;  // of a kg of TDN, bought as hay or grain
};
[[nodiscard]] std::optional<double> lost_worth_per_kg_dm(const RigTrials& rig,
                                                         const FeedPrices& prices);

}  // namespace haylane
