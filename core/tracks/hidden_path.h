#pragma once
// The likeliest sequence of hidden states behind a sequence of observations (Viterbi 1967), and how
// probable each state is at each step (forward-backward). Logarithms throughout the input; minus
// infinity forbids. Cost: steps x states^2.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace haylane {

// Steps observed and the model behind them. `log_emission` holds steps x states.
struct HiddenChain {
    std::size_t states = 0;
    std::vector<double> log_initial;                  // states
    std::vector<std::vector<double>> log_transition;  // kinds of step, each from x to
    std::vector<std::uint16_t> step_kind;             // of the step into i; the first is not used
    std::vector<double> log_emission;
    [[nodiscard]] std::size_t steps() const {
        return states == 0 ? 0 : log_emission.size() / states;
    }
};

struct HiddenPath {
    std::vector<std::uint8_t> states;
    double log_likelihood = 0.0;  // of the path and the observations together
};

// Ties go to the lower state. The chain must have at least one step and at most 255 states.
[[nodiscard]] HiddenPath most_likely_path(const HiddenChain& chain);
// The probability of the path's state at each step, given all observations.
[[nodiscard]] std::vector<float> path_probability(const HiddenChain& chain, const HiddenPath& path);

}  // namespace haylane
