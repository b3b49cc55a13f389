#pragma once
// The choice on one ground with candidates shared out in fractions, and what that proves about
// every whole choice.

#include "core/plan/choice_model.h"

#include <cstddef>
#include <vector>

namespace haylane {

// One feeding of the ground.
struct RelaxedFeeding {
    std::size_t feeding = 0;
    const std::vector<std::size_t>* allowed = nullptr;  // not owned; not empty
    std::vector<double> linear;  // by candidate: 2<r, W> + c, what it adds but for |W|^2
};

struct RelaxedOptions {
    int rounds = 12;  // more only tighten it
    double start_theta = 1.0;
    double theta_step = 0.5;  // 0: one theta on all squares
};

// At most the least of sum of `linear` + |sum of W|^2 over whole choices. Feedings lie on one
// ground. Deterministic. Cost: one walk along every candidate a round.
[[nodiscard]] double relaxed_bound(const ChoiceModel& model,
                                   const std::vector<RelaxedFeeding>& feedings,
                                   const RelaxedOptions& options = {});

}  // namespace haylane
