#pragma once
// The yardstick of a choice of lines: the mean J of plans drawn at random that keep every rule.

#include "core/plan/choice_model.h"
#include "core/plan/line_rules.h"
#include "core/plan/load_room.h"

#include <cstdint>
#include <optional>

namespace haylane {

// Each feeding in order takes, evenly at random, one of the candidates for which least yields,
// given the ones before it and those without a choice, among those that keep the limits. The same
// seed gives the same mean for any number of threads. Draws that run out of room under a limit do
// not count; nullopt when none is left.
[[nodiscard]] std::optional<double> mean_random_objective(const ChoiceModel& model,
                                                          const LineRules& rules,
                                                          const LoadLimits& limits,
                                                          std::uint64_t seed, int plans = 32);
// One such plan: candidate by feeding, -1 where there is none.
[[nodiscard]] std::vector<int> random_plan(const ChoiceModel& model, const LineRules& rules,
                                           const LoadLimits& limits, std::uint64_t seed);

}  // namespace haylane
