// Rejection sampling while clear candidates are common, then a full list; both draw evenly.
#include "core/plan/random_plans.h"

#include "core/base/parallel.h"
#include "core/base/random.h"
#include "core/plan/plan_objective.h"

#include <array>
#include <utility>

namespace haylane {

namespace {

constexpr int kQuickTries = 64;
constexpr int kRedraws = 4;

// Takes candidates out at random until one keeps the limits; -1 when none does.
int draw_one(std::vector<int> from, std::size_t f, const LoadRoom& room, Random& random) {
    while (!from.empty()) {
        const std::size_t n = random.below(from.size());
        if (room.holds(f, static_cast<std::size_t>(from[n]))) return from[n];
        from[n] = from.back();
        from.pop_back();
    }
    return -1;
}

int draw(const ChoiceModel& model, const LineRules& rules, std::size_t f,
         const std::vector<int>& chosen, const LoadRoom& room, Random& random) {
    const std::size_t count = model.feedings[f].candidates();
    if (count == 0) return -1;
    for (int attempt = 0; attempt < kQuickTries; ++attempt) {
        const std::size_t c = random.below(count);
        if (rules.is_clear(f, c, chosen) && room.holds(f, c)) return static_cast<int>(c);
    }
    std::array<std::vector<int>, 3> by_clearance;  // touching, near, clear
    for (std::size_t c = 0; c < count; ++c)
        by_clearance.at(static_cast<std::size_t>(rules.of(f, c, chosen, chosen.size())))
            .push_back(static_cast<int>(c));
    for (const std::size_t most : {2U, 1U, 0U}) {
        const int one = draw_one(std::move(by_clearance.at(most)), f, room, random);
        if (one >= 0) return one;
    }
    return -1;
}

bool is_whole(const ChoiceModel& model, const std::vector<int>& chosen) {
    for (std::size_t f = 0; f < chosen.size(); ++f) {
        if (chosen[f] < 0 && model.feedings[f].candidates() > 0) return false;
    }
    return true;
}

}  // namespace

std::vector<int> random_plan(const ChoiceModel& model, const LineRules& rules,
                             const LoadLimits& limits, std::uint64_t seed) {
    Random random(seed);
    LoadRoom room(limits);
    std::vector<int> chosen(model.feedings.size(), -1);
    const auto lay = [&](std::size_t f) {
        chosen[f] = draw(model, rules, f, chosen, room, random);
        if (chosen[f] >= 0) room.add(f, static_cast<std::size_t>(chosen[f]), 1.0);
    };
    const auto has_choice = [&](std::size_t f) { return model.feedings[f].candidates() > 1; };
    for (std::size_t f = 0; f < chosen.size(); ++f)
        if (!has_choice(f)) lay(f);
    for (std::size_t f = 0; f < chosen.size(); ++f)
        if (has_choice(f)) lay(f);
    return chosen;
}

std::optional<double> mean_random_objective(const ChoiceModel& model, const LineRules& rules,
                                            const LoadLimits& limits, std::uint64_t seed,
                                            int plans) {
    std::vector<std::optional<double>> objectives(static_cast<std::size_t>(plans));
    Random seeds(seed);
    std::vector<std::uint64_t> own_seed;
    own_seed.reserve(objectives.size());
    for (int n = 0; n < plans; ++n) own_seed.push_back(seeds.bits());
    parallel_for(objectives.size(), model.threads, [&](std::size_t n) {
        for (std::uint64_t attempt = 0; attempt < kRedraws && !objectives[n]; ++attempt) {
            const std::vector<int> plan = random_plan(model, rules, limits, own_seed[n] + attempt);
            if (is_whole(model, plan)) objectives[n] = plan_objective(model, plan);
        }
    });
    double sum = 0.0;
    int whole = 0;
    for (const std::optional<double>& value : objectives) {
        sum += value.value_or(0.0);
        whole += value ? 1 : 0;
    }
    if (whole == 0) return std::nullopt;
    return sum / whole;
}

}  // namespace haylane
