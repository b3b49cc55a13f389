#pragma once
// A lower bound on J over all plans that pick one allowed candidate a feeding, and on the evenness
// any of them can reach. Spacing between the feedings is left out: the bounds hold for every plan
// that keeps the rules against resting lines.

#include "core/plan/choice_model.h"
#include "core/plan/relaxed_bound.h"

#include <optional>
#include <vector>

namespace haylane {

// By feeding: candidates it may use; empty when it has none (it then adds nothing).
using Allowed = std::vector<std::vector<std::size_t>>;

[[nodiscard]] double lower_bound(const ChoiceModel& model, const Allowed& allowed,
                                 const RelaxedOptions& options = {});
// No plan has a lower coefficient of variation over the target ground of all grounds together.
// nullopt when there is no target ground or no deposit on it.
[[nodiscard]] std::optional<double> cv_lower_bound(const ChoiceModel& model, const Allowed& allowed,
                                                   const RelaxedOptions& options = {});

}  // namespace haylane
