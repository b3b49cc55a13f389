// Checks how loads are shared among given lines against every way there is, on seeded random cases.
#include "core/plan/share_loads.h"

#include "core/base/random.h"

#include <cmath>
#include <functional>
#include <limits>
#include <numeric>

#include <gtest/gtest.h>

namespace haylane {
namespace {

ScheduledLoad load_of(int bales, double bale_kg) {
    ScheduledLoad load;
    load.bales = bales;
    load.hay_kg = bales * bale_kg;
    return load;
}

// Sum of squares of metres off one lay rate.
double cost_of(const std::vector<ScheduledLoad>& loads, const std::vector<double>& lengths,
               const std::vector<LineShare>& shares) {
    double hay_kg = 0.0;
    for (const ScheduledLoad& load : loads) hay_kg += load.hay_kg;
    const double length = std::accumulate(lengths.begin(), lengths.end(), 0.0);
    double cost = 0.0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const ScheduledLoad& load = loads[static_cast<std::size_t>(shares[i].load)];
        const double wanted = shares[i].bales * load.hay_kg / load.bales * length / hay_kg;
        cost += (lengths[i] - wanted) * (lengths[i] - wanted);
    }
    return cost;
}

// Every order of loads, every number of lines for each, every number of bales for each line.
double least_by_trying_all(const std::vector<ScheduledLoad>& loads,
                           const std::vector<double>& lengths) {
    double least = std::numeric_limits<double>::infinity();
    std::vector<LineShare> shares;
    std::vector<bool> used(loads.size(), false);
    std::function<void(std::size_t, int)> go_on = [&](std::size_t load, int left) {
        if (shares.size() == lengths.size()) {
            const bool all = left == 0 && std::find(used.begin(), used.end(), false) == used.end();
            if (all) least = std::min(least, cost_of(loads, lengths, shares));
            return;
        }
        if (left > 0) {
            for (int bales = 1; bales <= left; ++bales) {
                shares.push_back({static_cast<int>(load), bales});
                go_on(load, left - bales);
                shares.pop_back();
            }
            return;
        }
        for (std::size_t next = 0; next < loads.size(); ++next) {
            if (used[next]) continue;
            used[next] = true;
            for (int bales = 1; bales <= loads[next].bales; ++bales) {
                shares.push_back({static_cast<int>(next), bales});
                go_on(next, loads[next].bales - bales);
                shares.pop_back();
            }
            used[next] = false;
        }
    };
    go_on(0, 0);
    return least;
}

TEST(ShareLoads, NoWayOfSharingIsMoreEven) {
    Random random(7);
    int shared = 0;
    for (int n = 0; n < 300; ++n) {
        std::vector<ScheduledLoad> loads;
        int bales = 0;
        for (auto left = 1 + random.below(3); left > 0; --left) {
            loads.push_back(load_of(static_cast<int>(1 + random.below(4)),
                                    random.below(2) == 0 ? 500.0 : 590.0));
            bales += loads.back().bales;
        }
        std::vector<double> lengths;
        for (auto left = 1 + random.below(5); left > 0; --left)
            lengths.push_back(40.0 + 200.0 * random.uniform());
        const auto found = share_loads(loads, lengths);
        const double least = least_by_trying_all(loads, lengths);
        ASSERT_EQ(found.has_value(), std::isfinite(least));
        if (!found) continue;
        ++shared;
        EXPECT_NEAR(cost_of(loads, lengths, *found), least, 1e-6 * (1.0 + least));
        int given = 0;
        for (const LineShare& share : *found) given += share.bales;
        EXPECT_EQ(given, bales);
    }
    EXPECT_GT(shared, 150);
}

TEST(ShareLoads, GivesBackThePlansOwnSharing) {
    const std::vector<ScheduledLoad> loads{load_of(3, 590.0), load_of(2, 560.0)};
    // 2 kg a metre: the second load first, the first load in a line of two bales and one of one.
    const auto shares = share_loads(loads, {560.0, 590.0, 295.0});
    ASSERT_TRUE(shares);
    EXPECT_EQ((*shares)[0].load, 1);
    EXPECT_EQ((*shares)[0].bales, 2);
    EXPECT_EQ((*shares)[1].load, 0);
    EXPECT_EQ((*shares)[1].bales, 2);
    EXPECT_EQ((*shares)[2].bales, 1);
}

TEST(ShareLoads, WhatCannotBeShared) {
    EXPECT_FALSE(share_loads({load_of(2, 500.0), load_of(2, 500.0)}, {300.0}));
    EXPECT_FALSE(share_loads({load_of(2, 500.0)}, {100.0, 100.0, 100.0}));
    EXPECT_FALSE(share_loads({load_of(2, 500.0)}, {0.0}));
    EXPECT_FALSE(share_loads({load_of(2, 500.0)}, {}));
}

TEST(ShareLoads, ManyLoadsAndLinesTakeNoTime) {
    std::vector<ScheduledLoad> loads;
    for (int l = 0; l < 20; ++l) loads.push_back(load_of(3, 400.0 + 10.0 * l));  // all unlike
    const auto shares = share_loads(loads, std::vector<double>(40, 150.0));
    ASSERT_TRUE(shares);
    EXPECT_EQ(shares->size(), 40U);
}

}  // namespace
}  // namespace haylane
