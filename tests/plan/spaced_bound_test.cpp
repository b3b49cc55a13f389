#include "core/plan/spaced_bound.h"

#include "core/base/random.h"
#include "core/plan/line_clearance.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kSpacing_m = 12.0;

Candidate line(Point a, Point b) {
    Candidate candidate;
    candidate.lines.push_back({.path = {a, b}, .length_m = distance_m(a, b), .bales = 1});
    return candidate;
}

// The least sum over all ways that keep the spacing, tried one by one; infinity when none does.
double least_of_all(const std::vector<SpacedFeeding>& feedings,
                    std::vector<std::size_t> picked = {}) {
    const std::size_t f = picked.size();
    if (f == feedings.size()) return 0.0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k < feedings[f].allowed.size(); ++k) {
        const Polyline& own = (*feedings[f].candidates)[feedings[f].allowed[k]].lines[0].path;
        bool clear = true;
        for (std::size_t g = 0; g < f; ++g) {
            const Polyline& other =
                (*feedings[g].candidates)[feedings[g].allowed[picked[g]]].lines[0].path;
            clear = clear && clearance(own, other, kSpacing_m) == Clearance::clear;
        }
        if (!clear) continue;
        std::vector<std::size_t> next = picked;
        next.push_back(k);
        least = std::min(least, feedings[f].value[k] + least_of_all(feedings, next));
    }
    return least;
}

double least_alone(const std::vector<SpacedFeeding>& feedings) {
    double sum = 0.0;
    for (const SpacedFeeding& own : feedings)
        sum += *std::min_element(own.value.begin(), own.value.end());
    return sum;
}

// Checked against every combination, tried one by one.
TEST(SpacedBound, IsNeverAboveTheBestOfAllWays) {
    int tighter = 0;
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        Random random(seed);
        std::vector<Candidate> lines;
        for (int c = 0; c < 8; ++c) {
            const Point a{random.uniform() * 100.0, random.uniform() * 60.0};
            lines.push_back(
                line(a, a + Point{20.0 + random.uniform() * 40.0, random.uniform() * 20.0 - 10.0}));
        }
        std::vector<SpacedFeeding> feedings(4);
        for (SpacedFeeding& own : feedings) {
            own.candidates = &lines;
            for (std::size_t c = 0; c < lines.size(); ++c) {
                own.allowed.push_back(c);
                own.value.push_back(static_cast<double>(c) + random.uniform());
            }
        }
        const double best = least_of_all(feedings);
        if (!std::isfinite(best)) continue;
        for (SpacedFeeding& own : feedings) own.held_value = best / 4.0;
        const double bound = spaced_bound(feedings, kSpacing_m);
        EXPECT_LE(bound, best + 1e-9) << "seed " << seed;
        EXPECT_GE(bound, least_alone(feedings) - 1e-9) << "seed " << seed;
        if (bound > least_alone(feedings) + 0.25 * (best - least_alone(feedings))) ++tighter;
    }
    EXPECT_GT(tighter, 50);
}

// Three feedings, three parallel lines 20 m apart that cost 1, 2 and 4: by hand 7, not 3.
TEST(SpacedBound, SharesOutTheBestPlaces) {
    std::vector<Candidate> lines;
    for (const double y : {0.0, 20.0, 40.0}) lines.push_back(line({0.0, y}, {50.0, y}));
    const SpacedFeeding one{&lines, {0, 1, 2}, {1.0, 2.0, 4.0}, 7.0 / 3.0};
    EXPECT_NEAR(spaced_bound({one, one, one}, kSpacing_m, 400), 7.0, 0.05);
    EXPECT_NEAR(spaced_bound({one}, kSpacing_m), 1.0, 1e-12);
}

}  // namespace
}  // namespace haylane
