#pragma once
// The choice on one ground with candidates shared out in fractions, and what that proves about
// every whole choice.

#include "core/plan/choice_model.h"

#include <cstddef>
#include <limits>
#include <vector>

namespace haylane {

// One feeding of the ground.
struct RelaxedFeeding {
    std::size_t feeding = 0;
    const std::vector<std::size_t>* allowed = nullptr;  // not owned; not empty
    std::vector<double> fixed;                          // by candidate: its cost at empty ground
};

struct RelaxedOptions {
    double theta = 0.5;
    int rounds = 8;  // over all feedings; more only tighten it
    double known = -std::numeric_limits<double>::infinity();  // a bound that is known already
};

// At most the least sum of `fixed` plus theta |sum of W|^2 over whole and fractional choices;
// -infinity when that is seen not to be above `known`. Feedings lie on one ground. Deterministic.
// Cost: one walk along every candidate a round.
[[nodiscard]] double relaxed_bound(const ChoiceModel& model,
                                   const std::vector<RelaxedFeeding>& feedings,
                                   const RelaxedOptions& options);

}  // namespace haylane
