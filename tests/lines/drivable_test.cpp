// Checks that the judge of lines names each fault; lines are worked by hand.
#include "core/lines/drivable.h"

#include "core/lines/loads.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using Faults = std::vector<LineFault>;

FeedableGround square(double side_m) {
    FeedableGround ground;
    ground.region = Region({{{{0, 0}, {side_m, 0}, {side_m, side_m}, {0, side_m}}, {}}});
    return ground;
}

CandidateLine arc(double radius_m, double step_rad) {
    CandidateLine line;
    line.curved = true;
    line.bales = 1;
    for (int i = 0; i <= 20; ++i)
        line.path.push_back(
            {100 + radius_m * std::cos(i * step_rad), 100 + radius_m * std::sin(i * step_rad)});
    return line;
}

TEST(LineFaults, AreNoneOnAGoodLine) {
    const CandidateLine line{{{10, 10}, {110, 10}}, false, 100, 0, 1};
    EXPECT_EQ(line_faults(square(200), line, {100, 0, {}, 60}), Faults{});
    EXPECT_EQ(line_faults(square(200), line, {100.4, 0, {{10, 71}}, 60}), Faults{});
}

TEST(LineFaults, NameWhatIsWrong) {
    const FeedableGround ground = square(200);
    const CandidateLine line{{{10, 10}, {110, 10}}, false, 100, 0, 1};
    EXPECT_EQ(line_faults(ground, {}, {100, 0, {}, 60}), Faults{LineFault::no_line});
    EXPECT_EQ(line_faults(ground, line, {100.6, 0, {}, 60}), Faults{LineFault::wrong_length});
    EXPECT_EQ(line_faults(ground, line, {100, 0, {{10, 69}}, 60}),
              Faults{LineFault::starts_near_gate});
    EXPECT_EQ(line_faults(square(100), line, {100, 0, {}, 60}), Faults{LineFault::off_ground});
    const CandidateLine bow{{{10, 10}, {60, 10.4}, {110, 10}}, false, 100, 0, 1};
    EXPECT_EQ(line_faults(ground, bow, {100, 0, {}, 60}), Faults{LineFault::bowed});
    const CandidateLine slight{{{10, 10}, {60, 10.25}, {110, 10}}, false, 100, 0, 1};
    EXPECT_EQ(line_faults(ground, slight, {100, 0, {}, 60}), Faults{});
}

TEST(LineFaults, MeasureCurvature) {
    const CandidateLine line = arc(20, 0.09);  // steps of 1.8 m
    const double length = 20 * 2 * 20 * std::sin(0.045);
    EXPECT_EQ(line_faults(square(200), line, {length, 19.9, {}, 60}), Faults{});
    EXPECT_EQ(line_faults(square(200), line, {length, 20.1, {}, 60}),
              Faults{LineFault::bends_too_much});
    EXPECT_EQ(line_faults(square(200), line, {length, 0.0, {}, 60}),
              Faults{LineFault::bends_too_much});
    const CandidateLine coarse = arc(40, 0.06);  // steps of 2.4 m
    EXPECT_EQ(line_faults(square(200), coarse, {40 * 2 * 20 * std::sin(0.03), 30, {}, 60}),
              Faults{LineFault::vertices_far_apart});
}

TEST(LoadQueue, KeepsALoadWholeWhereALineCanHoldIt) {
    const std::vector<LineRequest::Load> loads{{2, 100}, {1, 40}};
    LoadQueue queue(loads, 120);
    EXPECT_FALSE(queue.fitting(99));  // some other line has room
    const auto whole = queue.fitting(100);
    ASSERT_TRUE(whole);
    EXPECT_EQ(whole->bales, 2);
    queue.take(*whole);
    const auto next = queue.fitting(300);
    ASSERT_TRUE(next);
    EXPECT_EQ(next->load, 1);
    EXPECT_DOUBLE_EQ(next->length_m, 40);
    queue.take(*next);
    EXPECT_TRUE(queue.done());
    EXPECT_FALSE(queue.fitting(300));
}

TEST(LoadQueue, CutsALongLoadAtWholeBales) {
    const std::vector<LineRequest::Load> loads{{5, 250}};
    LoadQueue queue(loads, 120);
    int bales = 0;
    int lines = 0;
    while (const auto piece = queue.fitting(120)) {
        EXPECT_DOUBLE_EQ(piece->length_m, 50.0 * piece->bales);
        bales += piece->bales;
        ++lines;
        queue.take(*piece);
    }
    EXPECT_EQ(bales, 5);
    EXPECT_EQ(lines, 3);
    EXPECT_FALSE(LoadQueue(loads, 120).fitting(49));
}

TEST(DrivingOrder, PutsTheFarthestLoadFirstAndStartsAwayFromGates) {
    LineRequest request;
    request.loads = {{1, 100}, {1, 100}};
    request.gates = {{0, 0}};
    const CandidateLine near{{{20, 10}, {120, 10}}, false, 100, 0, 1};
    const CandidateLine far{{{80, 90}, {180, 90}}, false, 100, 1, 1};
    const auto ordered = in_driving_order({near, far}, request);
    ASSERT_TRUE(ordered);
    ASSERT_EQ(ordered->lines.size(), 2U);
    EXPECT_EQ(ordered->lines[0].load, 1);
    EXPECT_EQ(ordered->lines[1].path.front(), (Point{120, 10}));  // turned: 22 m from the gate
    request.gate_keep_m = 500;
    EXPECT_FALSE(in_driving_order({near, far}, request));
}

// The far load walls off the near one's only allowed start.
TEST(DrivingOrder, DoesNotDriveAcrossHayLaidBefore) {
    LineRequest request;
    request.loads = {{1, 100}, {1, 100}};
    request.gates = {{0, 0}};
    const CandidateLine wall{{{90, -80}, {90, 200}}, false, 280, 0, 1};
    const CandidateLine through{{{50, 20}, {150, 20}}, false, 100, 1, 1};
    EXPECT_FALSE(in_driving_order({wall, through}, request));
}

}  // namespace
}  // namespace haylane
