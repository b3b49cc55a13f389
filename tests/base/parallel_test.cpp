// Checks that every item is done once, for any number of threads, with the same results.
#include "core/base/parallel.h"

#include <atomic>
#include <cmath>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(ParallelFor, DoesEachItemOnce) {
    for (const int threads : {0, 1, 2, 7}) {
        for (const std::size_t count :
             {std::size_t{0}, std::size_t{1}, std::size_t{3}, std::size_t{10000}}) {
            std::vector<std::atomic<int>> done(count);
            parallel_for(count, threads, [&](std::size_t i) { ++done[i]; });
            std::size_t once = 0;
            for (const auto& times : done) once += times == 1 ? 1U : 0U;
            EXPECT_EQ(once, count) << threads;
        }
    }
}

TEST(ParallelFor, OneThreadMeansThisThreadInOrder) {
    std::vector<std::size_t> order;
    const auto here = std::this_thread::get_id();
    parallel_for(100, 1, [&](std::size_t i) {
        EXPECT_EQ(std::this_thread::get_id(), here);
        order.push_back(i);
    });
    ASSERT_EQ(order.size(), 100U);
    for (std::size_t i = 0; i < order.size(); ++i) EXPECT_EQ(order[i], i);
}

TEST(ParallelFor, ResultsDoNotDependOnTheNumberOfThreads) {
    const auto run = [](int threads) {
        std::vector<double> values(5000);
        parallel_for(values.size(), threads,
                     [&](std::size_t i) { values[i] = std::sin(static_cast<double>(i)) / 3.0; });
        double sum = 0.0;
        for (const double value : values) sum += value;
        return sum;
    };
    const double one = run(1);
    EXPECT_EQ(run(2), one);
    EXPECT_EQ(run(4), one);
}

TEST(ParallelFor, NestsWithoutStalling) {
    std::atomic<int> total{0};
    parallel_for(8, 2, [&](std::size_t) { parallel_for(8, 2, [&](std::size_t) { ++total; }); });
    EXPECT_EQ(total, 64);
}

}  // namespace
}  // namespace haylane
