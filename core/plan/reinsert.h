#pragma once
// Takes a few feedings out of a plan at once and puts them back greedily in another order; what is
// better is kept. Finds what no feeding can change while the others stay, as when a whole row has
// to move over. Deterministic for a seed.

#include "core/base/random.h"
#include "core/plan/choose_lines.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace haylane {

struct ReinsertBudget {
    int rounds = 0;        // each takes out 2 to `most` feedings
    std::size_t most = 5;  // costs one look at all candidates of each feeding taken out
    std::uint64_t seed = 1;
};

// Search: chosen() by feeding, take_off(f), best(f) (a candidate or -1, the change of J it makes,
// what yields for it), lay(f, candidate), change_of(f, candidate). `group`: feedings with a choice
// that can be in each other's way. A round is kept only where J is lower and no rule yields for
// what was put back, so that J never rises. True when any was kept.
template <class Search>
class Reinsertion {
  public:
    Reinsertion(Search& search, std::vector<std::size_t> group, ReinsertBudget budget)
        : search_(&search), group_(std::move(group)), budget_(budget), random_(budget.seed) {}

    bool run() {
        bool changed = false;
        if (group_.size() < 2) return changed;
        for (int round = 0; round < budget_.rounds; ++round) changed = try_round() || changed;
        return changed;
    }

  private:
    static constexpr double kLeastGain = 1e-9;

    // The first `count` of the group in a random order.
    std::vector<std::size_t> draw(std::size_t count) {
        for (std::size_t n = 0; n < count; ++n)
            std::swap(group_[n], group_[n + random_.below(group_.size() - n)]);
        return {group_.begin(), group_.begin() + static_cast<std::ptrdiff_t>(count)};
    }

    bool try_round() {
        const std::size_t most = std::min(budget_.most, group_.size());
        const std::vector<std::size_t> out = draw(2 + random_.below(most - 1));
        std::vector<int> old;
        for (const std::size_t f : out) old.push_back(search_->chosen()[f]);
        if (std::find(old.begin(), old.end(), -1) != old.end()) return false;
        double before = 0.0;
        for (std::size_t n = 0; n < out.size(); ++n) {
            search_->take_off(out[n]);
            before += search_->change_of(out[n], old[n]);
        }
        double after = 0.0;
        std::size_t laid = 0;
        for (; laid < out.size(); ++laid) {
            const auto pick = search_->best(out[laid]);
            if (pick.candidate < 0 || pick.yielded != Yielded::nothing) break;
            after += pick.change;
            search_->lay(out[laid], pick.candidate);
        }
        if (laid == out.size() && after < before - kLeastGain) return true;
        for (std::size_t n = 0; n < laid; ++n) search_->take_off(out[n]);
        for (std::size_t n = 0; n < out.size(); ++n) search_->lay(out[n], old[n]);
        return false;
    }

    Search* search_;
    std::vector<std::size_t> group_;
    ReinsertBudget budget_;
    Random random_;
};

}  // namespace haylane
