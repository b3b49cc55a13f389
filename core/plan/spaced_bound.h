#pragma once
// A lower bound on what lines cost where lines of different feedings must keep a spacing: feedings
// that all want the same best place cannot all have it. Ranch frame, metres.

#include "core/plan/choice_model.h"

#include <cstddef>
#include <vector>

namespace haylane {

// One feeding of a ground on which all feedings keep apart.
struct SpacedFeeding {
    const std::vector<Candidate>* candidates = nullptr;  // not owned
    std::vector<std::size_t> allowed;                    // of them; at least one
    std::vector<double> value;                           // by allowed candidate
    double held_value = 0.0;  // of the one that a plan which keeps the spacing gave it
};

// At most the least sum of values over all ways to give each feeding one allowed candidate so that
// lines of different feedings come nowhere nearer than `spacing_m`; at least the sum of each
// feeding's least value. Deterministic. Cost: rounds x candidates x their lengths in spacings.
[[nodiscard]] double spaced_bound(const std::vector<SpacedFeeding>& feedings, double spacing_m,
                                  int rounds = 60);

}  // namespace haylane
