// Rejection sampling while clear candidates are common, then a full list; both draw evenly.
#include "core/plan/random_plans.h"

#include "core/base/parallel.h"
#include "core/base/random.h"
#include "core/plan/plan_objective.h"

#include <algorithm>

namespace haylane {

namespace {

constexpr int kQuickTries = 64;

int draw(const ChoiceModel& model, const LineRules& rules, std::size_t f,
         const std::vector<int>& chosen, Random& random) {
    const std::size_t count = model.feedings[f].candidates();
    if (count == 0) return -1;
    for (int attempt = 0; attempt < kQuickTries; ++attempt) {
        const std::size_t c = random.below(count);
        if (rules.of(f, c, chosen, chosen.size()) == Clearance::clear) return static_cast<int>(c);
    }
    std::vector<int> best;
    Clearance most = Clearance::touching;
    for (std::size_t c = 0; c < count; ++c) {
        const Clearance own = rules.of(f, c, chosen, chosen.size());
        if (own > most) best.clear();
        if (own >= most) best.push_back(static_cast<int>(c));
        most = std::max(most, own);
    }
    return best[random.below(best.size())];
}

}  // namespace

std::vector<int> random_plan(const ChoiceModel& model, const LineRules& rules, std::uint64_t seed) {
    Random random(seed);
    std::vector<int> chosen(model.feedings.size(), -1);
    for (std::size_t f = 0; f < chosen.size(); ++f)
        if (model.feedings[f].candidates() == 1) chosen[f] = 0;
    for (std::size_t f = 0; f < chosen.size(); ++f)
        if (chosen[f] < 0) chosen[f] = draw(model, rules, f, chosen, random);
    return chosen;
}

double mean_random_objective(const ChoiceModel& model, const LineRules& rules, std::uint64_t seed,
                             int plans) {
    std::vector<double> objectives(static_cast<std::size_t>(plans));
    Random seeds(seed);
    std::vector<std::uint64_t> own_seed;
    own_seed.reserve(objectives.size());
    for (int n = 0; n < plans; ++n) own_seed.push_back(seeds.bits());
    parallel_for(objectives.size(), model.threads, [&](std::size_t n) {
        objectives[n] = plan_objective(model, random_plan(model, rules, own_seed[n]));
    });
    double sum = 0.0;
    for (const double value : objectives) sum += value;
    return sum / static_cast<double>(plans);
}

}  // namespace haylane
