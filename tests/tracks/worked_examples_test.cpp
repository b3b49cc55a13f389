// The parts of the track reader against worked examples from outside the project.
#include "core/tracks/hidden_path.h"
#include "core/tracks/match_lines.h"
#include "core/tracks/motion_model.h"
#include "core/tracks/smooth_track.h"

#include <array>
#include <cmath>
#include <fstream>
#include <limits>
#include <sstream>

#include <gtest/gtest.h>

namespace haylane {
namespace {

// The healthy or feverish villager: start .6/.4, stay .7/.6; the common teaching example of the
// Viterbi algorithm, recomputed by hand.
HiddenChain villager(const std::vector<int>& felt) {
    const std::array<std::array<double, 3>, 2> emit{{{0.5, 0.4, 0.1}, {0.1, 0.3, 0.6}}};
    HiddenChain chain;
    chain.states = 2;
    chain.log_initial = {std::log(0.6), std::log(0.4)};
    chain.log_transition = {{std::log(0.7), std::log(0.3), std::log(0.4), std::log(0.6)}};
    for (const int f : felt) {
        chain.step_kind.push_back(0);
        for (const auto& row : emit)
            chain.log_emission.push_back(std::log(row[static_cast<std::size_t>(f)]));
    }
    return chain;
}

TEST(HiddenPath, TeachingExample) {
    enum { normal, cold, dizzy };
    const auto a = most_likely_path(villager({normal, cold, dizzy}));
    EXPECT_EQ(a.states, (std::vector<std::uint8_t>{0, 0, 1}));
    EXPECT_NEAR(std::exp(a.log_likelihood), 0.01512, 1e-12);
    const auto b = most_likely_path(villager({normal, cold, normal}));
    EXPECT_EQ(b.states, (std::vector<std::uint8_t>{0, 0, 0}));
    EXPECT_NEAR(std::exp(b.log_likelihood), 0.0294, 1e-12);
    const auto c = most_likely_path(villager({dizzy, cold, normal}));
    EXPECT_EQ(c.states, (std::vector<std::uint8_t>{1, 0, 0}));
    EXPECT_NEAR(std::exp(c.log_likelihood), 0.01344, 1e-12);
}

// Against every path of the same chain, counted one by one.
TEST(HiddenPath, ProbabilitiesAreThoseOfAllPathsCounted) {
    const HiddenChain chain = villager({0, 1, 2, 2, 1, 0});
    const HiddenPath best = most_likely_path(chain);
    const std::vector<float> sure = path_probability(chain, best);
    std::array<double, 6> with{};
    double all = 0.0;
    double most = 0.0;
    for (unsigned bits = 0; bits < 64; ++bits) {
        double log = 0.0;
        for (std::size_t i = 0; i < 6; ++i) {
            const std::size_t s = bits >> i & 1U;
            log += chain.log_emission[2 * i + s];
            log += i == 0 ? chain.log_initial[s]
                          : chain.log_transition[0][2 * (bits >> (i - 1) & 1U) + s];
        }
        all += std::exp(log);
        most = bits == 0 ? log : std::max(most, log);
        for (std::size_t i = 0; i < 6; ++i)
            if ((bits >> i & 1U) == best.states[i]) with[i] += std::exp(log);
    }
    EXPECT_NEAR(best.log_likelihood, most, 1e-12);
    for (std::size_t i = 0; i < 6; ++i)
        EXPECT_NEAR(static_cast<double>(sure[i]), with[i] / all, 1e-6);
}

// Two steps of a time are one step of twice the time, and rows sum to one.
TEST(MotionModel, TransitionsComposeOverTime) {
    const auto one = transition_log(7.0);
    const auto two = transition_log(14.0);
    const std::size_t n = kDriveStates;
    for (std::size_t i = 0; i < n; ++i) {
        double sum = 0.0;
        for (std::size_t j = 0; j < n; ++j) {
            double via = 0.0;
            for (std::size_t k = 0; k < n; ++k)
                via += std::exp(one[i * n + k]) * std::exp(one[k * n + j]);
            EXPECT_NEAR(via, std::exp(two[i * n + j]), 1e-12);
            sum += std::exp(two[i * n + j]);
        }
        EXPECT_NEAR(sum, 1.0, 1e-12);
    }
}

// One axis, dt 1, Q = 0.1 [[1/3, 1/2], [1/2, 1]], R 4, prior of the first fix 0 with 100 I.
// Computed with a general matrix program from the textbook equations.
TEST(SmoothTrack, WorkedExampleInOneDimension) {
    const std::array<double, 6> z{0.0, 1.2, 1.9, 3.4, 3.8, 5.1};
    const std::array<double, 6> place{.083111190,  1.077572338, 2.071377036,
                                      3.064200895, 4.054772527, 5.045641567};
    const std::array<double, 6> speed{.994324135, .994238014, .993521347,
                                      .991562268, .990416053, .991095533};
    const std::array<double, 6> variance{2.112980976, 1.168606751, .769074451,
                                         .775563294,  1.190261165, 2.155643605};
    std::vector<Fix> fixes;
    for (std::size_t i = 0; i < 6; ++i)
        fixes.push_back({{z[i], -2.0 * z[i]}, static_cast<double>(i), i});
    const auto states =
        smooth_track(fixes, {.fix_variance_m2 = 4.0, .acceleration_m2_per_s3 = 0.1});
    ASSERT_EQ(states.size(), 6U);
    for (std::size_t i = 0; i < 6; ++i) {
        EXPECT_NEAR(states[i].fix.at.x, place[i], 1e-8);
        EXPECT_NEAR(states[i].fix.at.y, -2.0 * place[i], 1e-8);  // the same model on both axes
        EXPECT_NEAR(states[i].fix.velocity_m_per_s.x, speed[i], 1e-8);
        EXPECT_NEAR(states[i].place_variance_m2, variance[i], 1e-8);
    }
}

// Values of a published example (0 0, 100 0 against a detour) and by hand.
TEST(Frechet, WorkedExamples) {
    const Polyline straight{{0, 0}, {100, 0}};
    const Polyline detour{{0, 0}, {50, 50}, {100, 0}};
    EXPECT_NEAR(discrete_frechet_m(straight, detour), 70.7106781186548, 1e-10);
    EXPECT_NEAR(discrete_frechet_m(densified(straight, 50), densified(detour, 36)), 50.0, 1e-10);
    const Polyline p{{0, 0}, {1, 0}, {2, 0}, {3, 0}};
    EXPECT_DOUBLE_EQ(discrete_frechet_m(p, reversed(p)), 3.0);
    EXPECT_DOUBLE_EQ(discrete_frechet_m(p, {{0, 1}, {1, 1.5}, {2, 1}, {3, 1}}), 1.5);
    EXPECT_EQ(discrete_frechet_m(p, {}), std::numeric_limits<double>::infinity());
}

// Every number of a piece of text, in order.
std::vector<double> numbers_in(const std::string& text) {
    std::vector<double> all;
    const char* at = text.c_str();
    while (*at != '\0') {
        char* end = nullptr;
        const double value = std::strtod(at, &end);
        if (end == at) {
            ++at;
            continue;
        }
        all.push_back(value);
        at = end;
    }
    return all;
}

Polyline points_of(const std::string& wkt) {
    const std::vector<double> all = numbers_in(wkt.substr(wkt.find('(')));
    Polyline line;
    for (std::size_t i = 0; i + 1 < all.size(); i += 2) line.push_back({all[i], all[i + 1]});
    return line;
}

// The open table oracles/frechet-hausdorff.csv, made with GEOS.
TEST(Frechet, AgreesWithTheOpenTable) {
    std::ifstream file(std::string(HAYLANE_SHARED_DATA) + "/oracles/frechet-hausdorff.csv");
    if (!file) GTEST_SKIP() << "oracles/frechet-hausdorff.csv is not here";
    std::string line;
    std::getline(file, line);
    int rows = 0;
    while (std::getline(file, line)) {
        SCOPED_TRACE(line);
        // The two shapes end in ')', and the four distances follow the second.
        const std::size_t first = line.find('(');
        const std::size_t second = line.find('(', first + 1);
        const std::size_t end = line.find(')', second);
        ASSERT_NE(end, std::string::npos);
        const std::vector<double> distances = numbers_in(line.substr(end + 1));
        ASSERT_EQ(distances.size(), 4U);
        const Polyline a = points_of(line.substr(first, line.find(')', first) - first));
        const Polyline b = points_of(line.substr(second, end - second));
        EXPECT_NEAR(discrete_frechet_m(a, b), distances[2], 1e-8);
        ++rows;
    }
    EXPECT_EQ(rows, 11);
}

TEST(MatchLines, ALineBesideThePlannedOneIsFoundWithItsOffset) {
    const std::vector<Polyline> planned{{{0, 0}, {300, 0}}, {{0, 24}, {300, 24}}};
    const auto match = best_match({{320, 20}, {-10, 20}}, planned, 12.0);
    ASSERT_TRUE(match);
    EXPECT_EQ(match->planned, 1U);
    EXPECT_TRUE(match->fit.other_way);
    EXPECT_NEAR(match->fit.off_m, 4.0, 1e-9);
    EXPECT_NEAR(match->fit.longer_m, 30.0, 1e-9);
    EXPECT_NEAR(match->fit.share_laid, 1.0, 1e-9);
    EXPECT_FALSE(best_match({{0, 80}, {300, 80}}, planned, 12.0));
    EXPECT_FALSE(best_match({{150, 0}, {150, 300}}, planned, 12.0)) << "it only crosses them";
}

}  // namespace
}  // namespace haylane
