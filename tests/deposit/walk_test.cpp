// Checks exact line walking against fine sampling along the line, sums against lengths, nearest
// cells against a search over all, and filled cells against the point-in-polygon test.
#include "core/deposit/walk.h"

#include "core/base/units.h"
#include "core/deposit/cells_inside.h"
#include "core/deposit/cross_profile.h"
#include "tests/deposit/made_ground.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

Polyline random_line(Random& random, double low, double high) {
    Polyline line;
    const std::size_t count = 2 + random.below(4);
    for (std::size_t v = 0; v < count; ++v) {
        line.push_back(
            {low + (high - low) * random.uniform(), low + (high - low) * random.uniform()});
    }
    return line;
}

double sum_of(const std::vector<CellAmount>& cells) {
    double sum = 0.0;
    for (const CellAmount& c : cells) sum += c.amount;
    return sum;
}

TEST(Walk, EqualsFineSampling) {
    Random random(21);
    const PastureGround ground = testing::full_ground(Grid{-9.0, -9.0, 3.0, 30, 30});
    for (int trial = 0; trial < 20; ++trial) {
        SCOPED_TRACE(trial);
        const Polyline line = random_line(random, -8.0, 80.0);
        Raster<double> walked(ground.mask.grid);
        add_cells(cells_along(line, 2.0, ground), 1.0, walked);
        Raster<double> sampled(ground.mask.grid);
        constexpr int kSamples = 40000;
        for (std::size_t s = 0; s + 1 < line.size(); ++s) {
            const double each = 2.0 * distance_m(line[s], line[s + 1]) / kSamples;
            for (int n = 0; n < kSamples; ++n) {
                const Point p = lerp(line[s], line[s + 1], (n + 0.5) / kSamples);
                sampled(sampled.grid.column(p.x), sampled.grid.row(p.y)) += each;
            }
        }
        for (std::size_t c = 0; c < walked.values.size(); ++c) {
            EXPECT_NEAR(walked.values[c], sampled.values[c], 0.05);
        }
        EXPECT_NEAR(testing::total(walked), 2.0 * length_m(line), 1e-9 * length_m(line));
    }
}

TEST(Walk, RunsAlongGridLinesAndThroughCorners) {
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 10, 10});
    for (const Polyline& line :
         {Polyline{{0.0, 6.0}, {30.0, 6.0}}, Polyline{{30.0, 30.0}, {0.0, 0.0}},
          Polyline{{3.0, 27.0}, {3.0, 3.0}}}) {
        Raster<double> walked(ground.mask.grid);
        add_cells(cells_along(line, 1.0, ground), 1.0, walked);
        EXPECT_NEAR(testing::total(walked), length_m(line), 1e-12 * length_m(line));
    }
    Raster<double> diagonal(ground.mask.grid);
    add_cells(cells_along({{0.0, 0.0}, {30.0, 30.0}}, 1.0, ground), 1.0, diagonal);
    for (int i = 0; i < 10; ++i) EXPECT_NEAR(diagonal(i, i), 3.0 * std::sqrt(2.0), 1e-12);
}

TEST(Walk, SendsPiecesBeyondTheFenceToTheNearestCell) {
    Random random(22);
    const Grid grid{0.0, 0.0, 3.0, 12, 14};
    for (int trial = 0; trial < 30; ++trial) {
        SCOPED_TRACE(trial);
        const PastureGround ground = testing::ragged_ground(grid, 0.4, random);
        const Polyline line = random_line(random, -60.0, 100.0);
        Raster<double> walked(grid);
        add_cells(cells_along(line, 1.0, ground), 1.0, walked);
        EXPECT_NEAR(testing::total(walked), length_m(line), 1e-9 * length_m(line));
        EXPECT_TRUE(testing::nothing_outside(ground, walked));
    }
}

TEST(Walk, NearestCellIsNearestOfAll) {
    Random random(23);
    const Grid grid{0.0, 0.0, 3.0, 12, 14};
    for (int trial = 0; trial < 300; ++trial) {
        const PastureGround ground = testing::ragged_ground(grid, 0.05, random);
        const Point p{-40.0 + 120.0 * random.uniform(), -40.0 + 120.0 * random.uniform()};
        const Point middle = grid.center(grid.column(p.x), grid.row(p.y));
        double best = 1e300;
        for (int j = 0; j < grid.ny; ++j) {
            for (int i = 0; i < grid.nx; ++i) {
                if (ground.mask(i, j) != 0) {
                    best = std::min(best, distance_m(grid.center(i, j), middle));
                }
            }
        }
        const std::uint32_t cell = nearest_cell(p, ground);
        ASSERT_EQ(ground.mask.values[cell], 1);
        const Point found =
            grid.center(static_cast<int>(cell) % grid.nx, static_cast<int>(cell) / grid.nx);
        EXPECT_NEAR(distance_m(found, middle), best, 1e-9);
    }
}

TEST(CellsInside, AgreeWithThePointTest) {
    Random random(24);
    const Grid grid{-6.0, -6.0, 3.0, 25, 22};
    for (int trial = 0; trial < 20; ++trial) {
        Polygon shape;
        for (int v = 0; v < 9; ++v) {
            const double angle = 2.0 * units::kPi * v / 9.0;
            const double radius = 8.0 + 24.0 * random.uniform();
            shape.outer.push_back(
                {30.0 + radius * std::cos(angle), 28.0 + radius * std::sin(angle)});
        }
        shape.holes.push_back({{28.0, 26.0}, {28.0, 31.0}, {33.0, 31.0}, {33.0, 26.0}});
        const Raster<std::uint8_t> inside = cells_inside({shape}, grid);
        for (int j = 0; j < grid.ny; ++j) {
            for (int i = 0; i < grid.nx; ++i) {
                EXPECT_EQ(inside(i, j) != 0, contains({shape}, grid.center(i, j)));
            }
        }
    }
}

Rig shredding_rig() {
    Rig rig;
    rig.method = Method::shred;
    rig.discharge = Discharge::right;
    return rig;
}

TEST(CrossProfile, SharesSumToOne) {
    for (const Method method : {Method::unroll, Method::shred}) {
        for (const TailSide side : {TailSide::left, TailSide::both, TailSide::right}) {
            Rig rig = shredding_rig();
            rig.method = method;
            double sum = 0.0;
            for (const Strip& strip : cross_profile(rig, side, true)) sum += strip.share_ratio;
            EXPECT_NEAR(sum, 1.0, 1e-15);
        }
    }
}

// Common practice, no source: shredded hay drifts down-wind, never into the wind.
TEST(CrossProfile, TailFallsDownWind) {
    const Polyline north{{0.0, 0.0}, {0.0, 100.0}};
    const double from_west = units::rad_from_deg(270.0);
    EXPECT_EQ(tail_side(shredding_rig(), north, from_west), TailSide::right);
    EXPECT_EQ(tail_side(shredding_rig(), reversed(north), from_west), TailSide::left);
    EXPECT_EQ(tail_side(shredding_rig(), north, -1.0), TailSide::right);
    EXPECT_EQ(tail_side(shredding_rig(), north, 0.0), TailSide::right);  // head wind
    const PastureGround ground = testing::full_ground(Grid{-30.0, 0.0, 1.0, 60, 100});
    const Rig rig = shredding_rig();
    const auto cells = residue_cells({north}, &rig, from_west, ground);
    double east = 0.0;
    for (const CellAmount& c : cells) east += c.amount * ((c.cell % 60) + 0.5 - 30.0);
    EXPECT_GT(east, 0.4);
    EXPECT_NEAR(sum_of(cells), 1.0, 1e-12);
}

double reach_ft(const CrossProfile& profile, double edge_m, double side) {
    double reach = 0.0;
    for (const Strip& strip : profile) reach = std::max(reach, side * strip.offset_m - edge_m);
    return reach / units::kMetersPerFoot;
}

// Common practice, no source: shredded hay drifts 4 to 8 ft down-wind of the row, and about 4 ft on
// the machine's side with hardly a wind; unrolled hay reaches about 2.5 ft.
TEST(CrossProfile, UsualReachIsThatOfTheTrade) {
    const Rig rig = shredding_rig();
    const double edge = rig.windrow_m / 2.0;
    const CrossProfile windy = cross_profile(rig, TailSide::right, true);
    EXPECT_NEAR(windy[3].offset_m - edge, 4.0 * units::kMetersPerFoot, 1e-9);
    EXPECT_NEAR(reach_ft(windy, edge, 1.0), 8.0, 1e-9);
    const CrossProfile still = cross_profile(rig, TailSide::right, false);
    EXPECT_NEAR(reach_ft(still, edge, 1.0), 4.0, 1e-9);
    Rig unroll;
    for (const bool wind : {false, true}) {
        const CrossProfile row = cross_profile(unroll, TailSide::both, wind);
        EXPECT_NEAR(reach_ft(row, 0.0, 1.0), 2.5, 1e-9);
        EXPECT_NEAR(reach_ft(row, 0.0, -1.0), 2.5, 1e-9);
    }
}

// By hand: of 1 kg left 0.4 kg are fines, the rest lies 75 to 25 in windrow and tail.
TEST(CrossProfile, FinesLieInTheTail) {
    const Rig rig = shredding_rig();
    for (const TailSide side : {TailSide::left, TailSide::both, TailSide::right}) {
        double tail = 0.0;
        double sum = 0.0;
        for (const Strip& strip : cross_profile(rig, side, true, 0.4)) {
            sum += strip.share_ratio;
            if (std::abs(strip.offset_m) > 0.5 * rig.windrow_m) tail += strip.share_ratio;
        }
        EXPECT_NEAR(sum, 1.0, 1e-12);
        EXPECT_NEAR(tail, 0.4 + 0.6 * 0.25, 1e-12);
    }
}

TEST(CrossProfile, OffsetLinesStandAsideAtTheirDistance) {
    const Polyline bend = {{0.0, 0.0}, {50.0, 0.0}, {50.0, 50.0}};
    const Polyline right = offset_line(bend, 2.0);
    ASSERT_EQ(right.size(), 3U);
    EXPECT_NEAR(right[0].y, -2.0, 1e-12);
    EXPECT_NEAR(right[1].x, 52.0, 1e-12);
    EXPECT_NEAR(right[1].y, -2.0, 1e-12);
    EXPECT_NEAR(right[2].x, 52.0, 1e-12);
    Polyline arc;
    for (int k = 0; k <= 90; ++k) {
        arc.push_back({46.0 * std::cos(k * 0.02), 46.0 * std::sin(k * 0.02)});
    }
    for (const Point p : offset_line(arc, 1.5)) EXPECT_NEAR(norm_m(p), 47.5, 0.01);
}

TEST(CrossProfile, ConservesMassAcrossTheFence) {
    Random random(25);
    for (int trial = 0; trial < 20; ++trial) {
        const PastureGround ground =
            testing::ragged_ground(Grid{0.0, 0.0, 3.0, 12, 14}, 0.5, random);
        const Rig rig = shredding_rig();
        const MultiPolyline lines{random_line(random, -20.0, 60.0), random_line(random, 0.0, 40.0)};
        EXPECT_NEAR(sum_of(residue_cells(lines, &rig, 1.0, ground)), 1.0, 1e-12);
        EXPECT_NEAR(sum_of(line_cells(lines, ground)), 1.0, 1e-12);
    }
}

TEST(CrossProfile, CountsALineWithoutLengthAsAPoint) {
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 4, 4});
    const auto cells = line_cells({{{4.0, 4.0}, {4.0, 4.0}}}, ground);
    ASSERT_EQ(cells.size(), 1U);
    EXPECT_EQ(cells.front(), (CellAmount{5, 1.0}));
}

}  // namespace
}  // namespace haylane
