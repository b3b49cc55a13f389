// Checks putting feedings back on choices written out as numbers: on a case made so that neither
// one feeding nor a pair can be bettered, and on random ones against J worked out from scratch.
#include "core/plan/reinsert.h"

#include <limits>
#include <vector>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kForbidden = std::numeric_limits<double>::infinity();

// J = sum of alone[f][c] + sum over pairs of shared(f, c, g, d); infinity where a rule yields.
class Table {
  public:
    struct Pick {
        int candidate = -1;
        double change = 0.0;
        Yielded yielded = Yielded::nothing;
    };

    Table(std::vector<std::vector<double>> alone, std::vector<std::vector<double>> shared)
        : alone_(std::move(alone)), shared_(std::move(shared)), chosen_(alone_.size(), -1) {}

    [[nodiscard]] const std::vector<int>& chosen() const { return chosen_; }
    void lay(std::size_t f, int candidate) { chosen_[f] = candidate; }
    void take_off(std::size_t f) { chosen_[f] = -1; }
    [[nodiscard]] double change_of(std::size_t f, int candidate) const {
        double change = alone_[f][static_cast<std::size_t>(candidate)];
        for (std::size_t g = 0; g < chosen_.size(); ++g) {
            if (g != f && chosen_[g] >= 0)
                change += shared_[number(f, candidate)][number(g, chosen_[g])];
        }
        return change;
    }
    [[nodiscard]] Pick best(std::size_t f) const {
        Pick pick{-1, kForbidden, Yielded::nothing};
        for (std::size_t c = 0; c < alone_[f].size(); ++c) {
            const double change = change_of(f, static_cast<int>(c));
            if (change < pick.change) pick = {static_cast<int>(c), change, Yielded::nothing};
        }
        return pick;
    }
    void greedy() {
        for (std::size_t f = 0; f < chosen_.size(); ++f) lay(f, best(f).candidate);
    }
    [[nodiscard]] double objective() const {
        Table built = *this;
        built.chosen_.assign(chosen_.size(), -1);
        double sum = 0.0;
        for (std::size_t f = 0; f < chosen_.size(); ++f) {
            sum += built.change_of(f, chosen_[f]);
            built.lay(f, chosen_[f]);
        }
        return sum;
    }

  private:
    // All feedings have as many candidates as the first.
    [[nodiscard]] std::size_t number(std::size_t f, int candidate) const {
        return f * alone_[0].size() + static_cast<std::size_t>(candidate);
    }

    std::vector<std::vector<double>> alone_;
    std::vector<std::vector<double>> shared_;
    std::vector<int> chosen_;
};

// Three feedings in row A or row B, the rows in each other's way. The first likes A a little
// better; the others like B a lot, but come too late: none, and no pair, can leave A while one
// stays.
TEST(Reinsertion, MovesAWholeRowThatNoPairCanLeave) {
    std::vector<std::vector<double>> shared(6, std::vector<double>(6, 0.0));
    for (std::size_t x = 0; x < 6; ++x)
        for (std::size_t y = 0; y < 6; ++y)
            if (x / 2 != y / 2 && x % 2 != y % 2) shared[x][y] = kForbidden;
    Table plan({{0.0, 0.1}, {1.0, 0.0}, {1.0, 0.0}}, shared);
    plan.greedy();
    ASSERT_EQ(plan.chosen(), (std::vector<int>{0, 0, 0}));
    EXPECT_FALSE(Reinsertion(plan, {0, 1, 2}, {.rounds = 50, .most = 2, .seed = 7}).run());
    EXPECT_EQ(plan.chosen(), (std::vector<int>{0, 0, 0}));
    EXPECT_TRUE(Reinsertion(plan, {0, 1, 2}, {.rounds = 50, .seed = 7}).run());
    EXPECT_EQ(plan.chosen(), (std::vector<int>{1, 1, 1}));
    EXPECT_NEAR(plan.objective(), 0.1, 1e-12);
}

TEST(Reinsertion, NeverRaisesTheObjectiveAndKeepsTheRules) {
    int bettered = 0;
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        SCOPED_TRACE(seed);
        Random random(seed);
        const std::size_t feedings = 2 + random.below(6);
        const std::size_t ways = 3 + random.below(5);
        std::vector<std::vector<double>> alone(feedings);
        for (std::vector<double>& own : alone)
            for (std::size_t c = 0; c < ways; ++c) own.push_back(random.uniform());
        std::vector<std::vector<double>> shared(feedings * ways,
                                                std::vector<double>(feedings * ways));
        for (std::size_t x = 0; x < shared.size(); ++x) {
            for (std::size_t y = 0; y < x; ++y) {
                const double chance = random.uniform();
                shared[x][y] = shared[y][x] = chance < 0.15 ? kForbidden : chance;
            }
        }
        Table plan(alone, shared);
        plan.greedy();
        std::vector<std::size_t> group;
        for (std::size_t f = 0; f < feedings; ++f) group.push_back(f);
        const std::vector<int> greedy = plan.chosen();
        if (std::find(greedy.begin(), greedy.end(), -1) != greedy.end()) continue;
        const double before = plan.objective();
        const bool changed = Reinsertion(plan, group, {.rounds = 20, .seed = seed}).run();
        EXPECT_LT(plan.objective(), kForbidden);
        if (changed) {
            ++bettered;
            EXPECT_LT(plan.objective(), before);
        } else {
            EXPECT_EQ(plan.chosen(), greedy);
        }
        Table again(alone, shared);
        for (std::size_t f = 0; f < feedings; ++f) again.lay(f, greedy[f]);
        Reinsertion(again, group, {.rounds = 20, .seed = seed}).run();
        EXPECT_EQ(again.chosen(), plan.chosen());
    }
    EXPECT_GE(bettered, 20);
}

}  // namespace
}  // namespace haylane
