#pragma once
// A lower bound on J over all plans that pick one allowed candidate a feeding, and on the evenness
// any of them can reach. Spacing between the feedings is left out, unless it is asked for: without
// it the bounds hold for every plan that keeps the rules against resting lines.

#include "core/plan/choice_model.h"

#include <optional>
#include <vector>

namespace haylane {

// By feeding: candidates it may use; empty when it has none (it then adds nothing).
using Allowed = std::vector<std::vector<std::size_t>>;

struct BoundOptions {
    std::vector<double> thetas{0.25, 0.5, 1.0};  // besides 0
    int iterations = 8;                          // of Frank-Wolfe, each theta; more only tighten it
};
struct Bound {
    double value = 0.0;
    double theta = 0.0;  // the one that gave it
};
// Feedings that all keep apart from each other, on one ground each group, in the plan that is
// graded; the bound then holds for plans that keep them apart too.
struct KeptSpacing {
    double spacing_m = 12.0;
    std::vector<std::vector<std::size_t>> groups;
    std::vector<const std::vector<Candidate>*> candidates;  // by feeding; not owned
    std::vector<int> chosen;                                // by feeding, in that plan
};
// `kept` may be null.
[[nodiscard]] Bound lower_bound(const ChoiceModel& model, const Allowed& allowed,
                                const BoundOptions& options = {},
                                const KeptSpacing* kept = nullptr);
// No plan has a lower coefficient of variation over the target ground of all grounds together.
// nullopt when there is no target ground or no deposit on it.
[[nodiscard]] std::optional<double> cv_lower_bound(const ChoiceModel& model,
                                                   const Allowed& allowed);

}  // namespace haylane
