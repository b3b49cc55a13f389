#include "core/tracks/hidden_path.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {

namespace {

using Row = std::vector<double>;

// Emissions of a step as factors, the greatest 1: what is common to all states does not matter.
void emission_factors(const HiddenChain& chain, std::size_t step, Row& factors) {
    const auto from = chain.log_emission.begin() + static_cast<std::ptrdiff_t>(step * chain.states);
    const double most = *std::max_element(from, from + static_cast<std::ptrdiff_t>(chain.states));
    for (std::size_t s = 0; s < chain.states; ++s)
        factors[s] = std::exp(from[static_cast<std::ptrdiff_t>(s)] - most);
}

void scale_to_one(Row& row) {
    double sum = 0.0;
    for (const double value : row) sum += value;
    if (sum <= 0.0) return;
    for (double& value : row) value /= sum;
}

std::vector<Row> transition_factors(const HiddenChain& chain) {
    std::vector<Row> out = chain.log_transition;
    for (Row& kind : out)
        for (double& value : kind) value = std::exp(value);
    return out;
}

}  // namespace

HiddenPath most_likely_path(const HiddenChain& chain) {
    const std::size_t n = chain.states;
    const std::size_t steps = chain.steps();
    std::vector<std::uint8_t> came_from(steps * n);
    Row best(n);
    Row next(n);
    for (std::size_t s = 0; s < n; ++s) best[s] = chain.log_initial[s] + chain.log_emission[s];
    for (std::size_t i = 1; i < steps; ++i) {
        const Row& move = chain.log_transition[chain.step_kind[i]];
        for (std::size_t to = 0; to < n; ++to) {
            double most = -std::numeric_limits<double>::infinity();
            std::size_t who = 0;
            for (std::size_t from = 0; from < n; ++from) {
                const double value = best[from] + move[from * n + to];
                if (value > most) {
                    most = value;
                    who = from;
                }
            }
            next[to] = most + chain.log_emission[i * n + to];
            came_from[i * n + to] = static_cast<std::uint8_t>(who);
        }
        std::swap(best, next);
    }
    HiddenPath path;
    path.states.resize(steps);
    const auto end = std::max_element(best.begin(), best.end());
    path.log_likelihood = *end;
    auto state = static_cast<std::size_t>(end - best.begin());
    for (std::size_t i = steps; i-- > 0;) {
        path.states[i] = static_cast<std::uint8_t>(state);
        state = came_from[i * n + state];
    }
    return path;
}

std::vector<float> path_probability(const HiddenChain& chain, const HiddenPath& path) {
    const std::size_t n = chain.states;
    const std::size_t steps = chain.steps();
    const std::vector<Row> move = transition_factors(chain);
    std::vector<float> forward(steps * n);
    std::vector<float> emission(steps * n);  // factors, for the way back
    Row here(n);
    Row next(n);
    Row emitted(n);
    for (std::size_t i = 0; i < steps; ++i) {
        emission_factors(chain, i, emitted);
        for (std::size_t to = 0; to < n; ++to) {
            double sum = i == 0 ? std::exp(chain.log_initial[to]) : 0.0;
            for (std::size_t from = 0; i > 0 && from < n; ++from)
                sum += here[from] * move[chain.step_kind[i]][from * n + to];
            next[to] = sum * emitted[to];
        }
        scale_to_one(next);
        std::swap(here, next);
        for (std::size_t s = 0; s < n; ++s) {
            forward[i * n + s] = static_cast<float>(here[s]);
            emission[i * n + s] = static_cast<float>(emitted[s]);
        }
    }
    std::vector<float> out(steps);
    Row after(n, 1.0);
    Row weighted(n);
    for (std::size_t i = steps; i-- > 0;) {
        double all = 0.0;
        for (std::size_t s = 0; s < n; ++s)
            all += static_cast<double>(forward[i * n + s]) * after[s];
        const std::size_t own = path.states[i];
        out[i] =
            all > 0.0
                ? static_cast<float>(static_cast<double>(forward[i * n + own]) * after[own] / all)
                : 0.0F;
        if (i == 0) break;
        const Row& into = move[chain.step_kind[i]];
        for (std::size_t s = 0; s < n; ++s)
            weighted[s] = static_cast<double>(emission[i * n + s]) * after[s];
        for (std::size_t from = 0; from < n; ++from) {
            next[from] = 0.0;
            for (std::size_t to = 0; to < n; ++to) next[from] += into[from * n + to] * weighted[to];
        }
        scale_to_one(next);
        std::swap(after, next);
    }
    return out;
}

}  // namespace haylane
