#pragma once
// The yardstick of a choice of lines: the mean J of plans drawn at random that keep every rule.

#include "core/plan/choice_model.h"
#include "core/plan/line_rules.h"

#include <cstdint>

namespace haylane {

// Each feeding in order takes, evenly at random, one of the candidates for which least yields,
// given the ones before it and those without a choice. The same seed gives the same mean for any
// number of threads.
[[nodiscard]] double mean_random_objective(const ChoiceModel& model, const LineRules& rules,
                                           std::uint64_t seed, int plans = 32);
// One such plan: candidate by feeding, -1 where there is none.
[[nodiscard]] std::vector<int> random_plan(const ChoiceModel& model, const LineRules& rules,
                                           std::uint64_t seed);

}  // namespace haylane
