// The user's hand on a plan: what is held stays, the rest keeps its rules round it; closed ground
// is left free; another way is another place, and the best of those. Rules are judged by the
// ranch's own shapes (check_plan) and by points every metre.
#include "core/plan/user_hand.h"

#include "core/base/units.h"
#include "core/plan/check_plan.h"
#include "core/plan/move_line.h"
#include "tests/support/small_ranch.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::small_ranch;

const sys_days kFrom = day("2026-01-10");

// One herd in the west pasture, three days.
CheckedRanch one_herd() {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.settings.max_candidates = 120;
    return checked;
}

PlanRequest request_of(LineOrder order, UserHand hand = {}) {
    return {
        .from = kFrom, .days = 3, .seed = 3, .threads = 1, .order = order, .hand = std::move(hand)};
}

Plan planned(const CheckedRanch& checked, const PlanRequest& request) {
    auto result = plan_days(checked, request);
    EXPECT_TRUE(result.has_value())
        << (result ? "" : result.error().what + " " + result.error().where);
    return result ? std::move(result->plan) : Plan{};
}

Error refused(const CheckedRanch& checked, const PlanRequest& request) {
    auto result = plan_days(checked, request);
    EXPECT_FALSE(result.has_value());
    return result ? Error{} : result.error();
}

MultiPolyline lines_of(const PlannedFeeding& feeding) {
    MultiPolyline lines;
    for (const PlannedLine& line : feeding.lines) lines.push_back(line.path);
    return lines;
}

HeldFeeding held_as_planned(const PlannedFeeding& feeding) {
    return {feeding.herd, feeding.date, lines_of(feeding), feeding.bales, feeding.rig};
}

bool has_problem(const Plan& plan, const std::string& code) {
    return std::any_of(plan.problems.begin(), plan.problems.end(),
                       [&](const Problem& p) { return p.code == code; });
}

void expect_sound(const CheckedRanch& checked, const Plan& plan, const UserHand& hand) {
    for (const BrokenRule& broken : check_plan(checked.ranch, plan, hand))
        ADD_FAILURE() << broken.rule << " at " << broken.where << " by " << broken.by;
}

// Straight lines of a day's length, one a load, side by side from (x, y) on to the north.
MultiPolyline drawn_like(const PlannedFeeding& feeding, double x, double y) {
    MultiPolyline lines;
    for (const PlannedLine& line : feeding.lines) {
        lines.push_back({{x, y}, {x, y + line.length_m}});
        x += 12.0;
    }
    return lines;
}

class BothOrders : public ::testing::TestWithParam<LineOrder> {};
INSTANTIATE_TEST_SUITE_P(UserHand, BothOrders,
                         ::testing::Values(LineOrder::neighbour, LineOrder::free));

TEST_P(BothOrders, ADayHeldAsPlannedStaysToTheBale) {
    const CheckedRanch checked = one_herd();
    const Plan first = planned(checked, request_of(GetParam()));
    for (std::size_t f = 0; f < 3; ++f) {
        const UserHand hand{.held = {held_as_planned(first.feedings[f])}};
        const Plan second = planned(checked, request_of(GetParam(), hand));
        ASSERT_EQ(second.feedings.size(), 3U);
        EXPECT_EQ(lines_of(second.feedings[f]), lines_of(first.feedings[f]));
        EXPECT_EQ(second.feedings[f].by_hand, ByHand::held);
        EXPECT_EQ(second.feedings[f].rig, first.feedings[f].rig);
        ASSERT_EQ(second.feedings[f].bales.size(), first.feedings[f].bales.size());
        for (std::size_t b = 0; b < first.feedings[f].bales.size(); ++b)
            EXPECT_EQ(second.feedings[f].bales[b].count, first.feedings[f].bales[b].count);
        expect_sound(checked, second, hand);
    }
}

// Holding a line of the plan is no reason for the others to move.
TEST(UserHand, InNeighbourOrderTheOthersStayBesideAHeldLine) {
    const CheckedRanch checked = one_herd();
    const Plan first = planned(checked, request_of(LineOrder::neighbour));
    for (std::size_t f = 0; f < 3; ++f) {
        const UserHand hand{.held = {held_as_planned(first.feedings[f])}};
        const Plan second = planned(checked, request_of(LineOrder::neighbour, hand));
        for (std::size_t g = 0; g < 3; ++g)
            EXPECT_EQ(lines_of(second.feedings[g]), lines_of(first.feedings[g])) << f << g;
    }
}

TEST_P(BothOrders, OthersAreLaidRoundALineDrawnByHand) {
    const CheckedRanch checked = one_herd();
    const Plan first = planned(checked, request_of(GetParam()));
    // Where the plan would have laid the first day, but on the last: the first must give way.
    UserHand hand;
    hand.held.push_back({HerdId::at(0), kFrom + std::chrono::days{2}, lines_of(first.feedings[0])});
    const Plan second = planned(checked, request_of(GetParam(), hand));
    ASSERT_EQ(second.feedings.size(), 3U);
    EXPECT_EQ(lines_of(second.feedings[2]), lines_of(first.feedings[0]));
    EXPECT_NE(lines_of(second.feedings[0]), lines_of(first.feedings[0]));
    EXPECT_FALSE(has_problem(second, "spacing_yielded"));
    expect_sound(checked, second, hand);
}

TEST_P(BothOrders, TheSameForOneAndTwoThreads) {
    const CheckedRanch checked = one_herd();
    const Plan first = planned(checked, request_of(GetParam()));
    UserHand hand;
    hand.held = {{HerdId::at(0), kFrom, drawn_like(first.feedings[0], 500.0, 300.0)}};
    hand.forbidden = {{"wet corner", testing::square(0, 0, 300, 800), kFrom, kFrom, {}}};
    hand.another = {{HerdId::at(0), kFrom + std::chrono::days{1}, lines_of(first.feedings[1])}};
    PlanRequest request = request_of(GetParam(), hand);
    const Plan one = planned(checked, request);
    request.threads = 2;
    const Plan two = planned(checked, request);
    ASSERT_EQ(one.feedings.size(), two.feedings.size());
    for (std::size_t f = 0; f < one.feedings.size(); ++f)
        EXPECT_EQ(lines_of(one.feedings[f]), lines_of(two.feedings[f]));
    EXPECT_EQ(one.optimality.objective, two.optimality.objective);
}

// A line of 300 m on flat ground that nothing forbids, and ways to spoil it.
struct Broken {
    const char* name;
    MultiPolyline lines;
    const char* says;
};

CheckedRanch ranch_with_everything() {
    CheckedRanch checked = one_herd();
    Ranch& r = checked.ranch;
    r.off_limits = {{.name = "Stock dam",
                     .kind = OffLimitsKind::water,
                     .setback_m = 30.5,
                     .setback_given = true,
                     .area = testing::square(600, 600, 640, 640)}};
    r.soft = {{"Slough", testing::square(0, 500, 100, 800)}};
    for (int d = 0; d < 7; ++d)
        r.weather.push_back(
            {.date = kFrom + std::chrono::days{d}, .low_c = -5.0, .high_c = 6.0, .thaw = true});
    // A hill to the east: 20 % from x = 700 on.
    TerrainData terrain{Raster<float>(Grid{-100.0, -100.0, 5.0, 360, 200}), 5.0};
    for (int j = 0; j < 200; ++j) {
        for (int i = 0; i < 360; ++i) {
            const double x = -100.0 + 5.0 * i;
            terrain.elevation_m.values[terrain.elevation_m.grid.at(i, j)] =
                static_cast<float>(x > 700.0 ? 0.2 * (x - 700.0) : 0.0);
        }
    }
    r.terrain = std::move(terrain);
    return checked;
}

// Each line is as long as the plan's own, so that nothing but the rule meant is broken.
TEST(UserHand, AHeldLineThatBreaksARuleIsRefusedByName) {
    const CheckedRanch checked = ranch_with_everything();
    const Plan plan = planned(checked, request_of(LineOrder::neighbour));
    const PlannedFeeding& feeding = plan.feedings.front();
    const UserHand closed{.forbidden = {{"Wet corner", testing::square(300, 300, 420, 800), kFrom,
                                         kFrom, PastureId::at(0)}}};
    const auto longer = [&](double factor) {
        MultiPolyline lines = drawn_like(feeding, 450.0, 100.0);
        for (Polyline& line : lines) line[1].y = line[0].y + (line[1].y - line[0].y) * factor;
        return lines;
    };
    const std::vector<Broken> cases{
        {"fence", drawn_like(feeding, 450.0, -20.0), "leaves West"},
        {"strip", drawn_like(feeding, 3.0, 100.0), "nearer to a fence than 20 ft"},
        {"setback", drawn_like(feeding, 590.0, 420.0), "setback of Stock dam"},
        {"slope", drawn_like(feeding, 740.0, 150.0), "slope of 20 %"},
        {"soft", drawn_like(feeding, 50.0, 400.0), "soft ground in a thaw: Slough"},
        {"closed", drawn_like(feeding, 350.0, 350.0), "closed for that day: Wet corner"},
        {"thick", longer(0.3), "too short"},
        {"thin", longer(3.0), "too long"}};
    for (const Broken& one : cases) {
        UserHand hand = closed;
        hand.held = {{HerdId::at(0), kFrom, one.lines, feeding.bales, feeding.rig}};
        const Error error = refused(checked, request_of(LineOrder::neighbour, hand));
        EXPECT_EQ(error.code, "held_line_broken") << one.name;
        EXPECT_NE(error.what.find(one.says), std::string::npos) << one.name << ": " << error.what;
        EXPECT_NE(error.where.find("Cows"), std::string::npos) << error.where;
        EXPECT_FALSE(error.remedy.empty());
    }
    UserHand outside;
    outside.held = {{HerdId::at(0), kFrom, {{{5000.0, 0.0}, {5200.0, 0.0}}}}};
    EXPECT_NE(refused(checked, request_of(LineOrder::free, outside)).what.find("no pasture"),
              std::string::npos);
}

TEST(UserHand, ABendIsRefusedOnlyWhereTheRigCannotLayIt) {
    CheckedRanch checked = one_herd();
    const Plan plan = planned(checked, request_of(LineOrder::neighbour));
    const PlannedFeeding& feeding = plan.feedings.front();
    // A drawn line with one corner of 30 degrees.
    MultiPolyline bent;
    double x = 300.0;
    for (const PlannedLine& line : feeding.lines) {
        const Point corner{x, 300.0 + line.length_m / 2.0};
        bent.push_back(
            {{x, 300.0}, corner, corner + along_azimuth(units::kPi / 6.0) * (line.length_m / 2.0)});
        x += 20.0;
    }
    const auto held_with = [&](RigId rig) {
        UserHand hand;
        hand.held = {{HerdId::at(0), kFrom, bent, feeding.bales, rig}};
        return hand;
    };
    // Peel lays any line; Chop lays straight ones only.
    const UserHand may = held_with(RigId::at(0));
    const Plan second = planned(checked, request_of(LineOrder::neighbour, may));
    EXPECT_EQ(second.feedings.front().lines.front().shape, LineShape::curved);
    expect_sound(checked, second, may);
    const Error error = refused(checked, request_of(LineOrder::neighbour, held_with(RigId::at(1))));
    EXPECT_NE(error.what.find("straight lines only"), std::string::npos) << error.what;
}

TEST(UserHand, ARuleThatYieldsIsSaidAndTheLineStays) {
    const CheckedRanch checked = one_herd();
    const Plan plan = planned(checked, request_of(LineOrder::neighbour));
    // Beside South gate at (200, 0).
    UserHand hand;
    hand.held = {{HerdId::at(0), kFrom, drawn_like(plan.feedings.front(), 210.0, 20.0)}};
    const Plan gate = planned(checked, request_of(LineOrder::neighbour, hand));
    EXPECT_TRUE(has_problem(gate, "held_line_yields"));
    EXPECT_EQ(lines_of(gate.feedings.front()), hand.held.front().lines);
    // On the lines of two days at once.
    hand.held = {{HerdId::at(0), kFrom, lines_of(plan.feedings[0])},
                 {HerdId::at(0), kFrom + std::chrono::days{1}, lines_of(plan.feedings[0])}};
    const Plan twice = planned(checked, request_of(LineOrder::neighbour, hand));
    EXPECT_TRUE(has_problem(twice, "rest_yielded"));
    EXPECT_EQ(lines_of(twice.feedings[1]), lines_of(plan.feedings[0]));
}

TEST(UserHand, HeldBalesAreFedOrRefused) {
    CheckedRanch checked = one_herd();
    UserHand hand;
    hand.held = {{HerdId::at(0), kFrom, {{{300, 300}, {300, 700}}, {{320, 700}, {320, 500}}}}};
    hand.held.front().bales = {{LotId::at(0), YardId::at(0), 3}};  // the dear lot
    const Plan plan = planned(checked, request_of(LineOrder::neighbour, hand));
    ASSERT_EQ(plan.feedings.size(), 3U);
    ASSERT_EQ(plan.feedings.front().bales.size(), 1U);
    EXPECT_EQ(plan.feedings.front().bales.front().lot, LotId::at(0));
    EXPECT_EQ(plan.feedings.front().bales.front().count, 3);
    checked.ranch.lots[0].bales = 2;
    const Error error = refused(checked, request_of(LineOrder::neighbour, hand));
    EXPECT_EQ(error.code, "hay_short");
    EXPECT_NE(error.what.find("3 bales of Alfalfa"), std::string::npos) << error.what;
}

TEST(UserHand, WhatIsHeldWhereNothingIsDueIsSaid) {
    CheckedRanch checked = one_herd();
    checked.ranch.herds[0].feed_every_days = 2;
    UserHand hand;
    hand.held = {{HerdId::at(0), kFrom + std::chrono::days{1}, {{{300, 300}, {300, 700}}}},
                 {HerdId::at(0), kFrom + std::chrono::days{30}, {{{300, 300}, {300, 700}}}}};
    const Plan plan = planned(checked, request_of(LineOrder::neighbour, hand));
    EXPECT_EQ(std::count_if(plan.problems.begin(), plan.problems.end(),
                            [](const Problem& p) { return p.code == "hold_not_used"; }),
              1);
}

TEST_P(BothOrders, ClosedGroundIsLeftFreeOnItsDays) {
    const CheckedRanch checked = one_herd();
    const Plan first = planned(checked, request_of(GetParam()));
    // Around the first day's line, on the first two days.
    Box box;
    for (const Polyline& line : lines_of(first.feedings.front()))
        for (const Point p : line) box.add(p);
    box = box.grown_by(30.0);
    UserHand hand;
    hand.forbidden = {{"wet", testing::square(box.min_x, box.min_y, box.max_x, box.max_y), kFrom,
                       kFrom + std::chrono::days{1}, PastureId::at(0)}};
    const Plan second = planned(checked, request_of(GetParam(), hand));
    ASSERT_EQ(second.feedings.size(), 3U);
    for (std::size_t f = 0; f < 2; ++f) {
        for (const PlannedLine& line : second.feedings[f].lines)
            for (const Point p : densified(line.path, 1.0))
                EXPECT_FALSE(box.grown_by(-0.01).contains(p)) << f;
    }
    expect_sound(checked, second, hand);
    // Of another pasture, it does not count here.
    hand.forbidden.front().pasture = PastureId::at(1);
    const Plan third = planned(checked, request_of(GetParam(), hand));
    for (std::size_t f = 0; f < 3; ++f)
        EXPECT_EQ(lines_of(third.feedings[f]), lines_of(first.feedings[f]));
}

TEST_P(BothOrders, AnotherWayIsElsewhereAndSoIsTheNext) {
    const CheckedRanch checked = one_herd();
    UserHand hand;
    std::vector<MultiPolyline> seen{lines_of(planned(checked, request_of(GetParam())).feedings[1])};
    for (int n = 0; n < 3; ++n) {
        hand.another.push_back({HerdId::at(0), kFrom + std::chrono::days{1}, seen.back()});
        const Plan plan = planned(checked, request_of(GetParam(), hand));
        const MultiPolyline lines = lines_of(plan.feedings[1]);
        for (const MultiPolyline& old : seen)
            EXPECT_TRUE(are_clearly_different(lines, old, checked.ranch.settings.spacing_m));
        EXPECT_EQ(plan.feedings[1].by_hand, ByHand::another);
        expect_sound(checked, plan, hand);
        seen.push_back(lines);
    }
}

// With one feeding only, the next best is the best of all lines that are clearly different; each of
// them is held in turn and its J worked out.
TEST(UserHand, AnotherWayIsTheBestOfThose) {
    CheckedRanch checked = one_herd();
    checked.ranch.settings.max_candidates = 60;
    PlanRequest request = request_of(LineOrder::free);
    request.days = 1;
    auto kept = keep_plan(checked, request);
    ASSERT_TRUE(kept);
    const MultiPolyline first = lines_of(kept->result.plan.feedings.front());
    request.hand.another = {{HerdId::at(0), kFrom, first}};
    const Plan other = planned(checked, request);
    LineMover mover(*kept);
    double least = std::numeric_limits<double>::infinity();
    int tried = 0;
    for (const Candidate& candidate : *kept->schedule.feedings.front().candidates) {
        const MultiPolyline paths = paths_of(candidate);
        if (!are_clearly_different(paths, first, checked.ranch.settings.spacing_m)) continue;
        const auto moved = mover.move(0, paths);
        ASSERT_TRUE(moved);
        EXPECT_TRUE(moved->broken.empty());
        if (moved->yielded.empty()) least = std::min(least, moved->objective);
        ++tried;
    }
    EXPECT_GT(tried, 10);
    // The least way, against which ways are weighed, is that of the lines left.
    EXPECT_NEAR(other.optimality.objective, kept->result.plan.optimality.objective + least, 1e-7);
}

TEST(UserHand, NoOtherWayIsAnError) {
    CheckedRanch checked = one_herd();
    checked.ranch.pastures[0].shape = testing::square(0, 0, 60, 800);  // room for one place only
    checked.ranch.feedings.clear();
    checked.ranch.gates[0].at = {30, 0};
    checked.ranch.trails.clear();
    checked.ranch.herds[0].head = 40;
    PlanRequest request = request_of(LineOrder::free);
    request.days = 1;
    UserHand& hand = request.hand;
    for (int n = 0; n < 60; ++n) {
        const auto plan = plan_days(checked, request);
        if (!plan) {
            EXPECT_EQ(plan.error().code, "no_other_line");
            EXPECT_NE(plan.error().where.find("2026-01-10"), std::string::npos);
            return;
        }
        hand.another.push_back({HerdId::at(0), kFrom, lines_of(plan->plan.feedings.front())});
    }
    ADD_FAILURE() << "there is always another way";
}

TEST(ClearlyDifferent, ByPlaceOrByDirection) {
    const MultiPolyline line{{{0, 0}, {0, 300}}};
    const auto differs = [&](const MultiPolyline& other) {
        return are_clearly_different(line, other, 12.0);
    };
    EXPECT_FALSE(differs(line));
    EXPECT_FALSE(differs({{{0, 300}, {0, 0}}}));        // driven the other way
    EXPECT_FALSE(differs({{{35.9, 0}, {35.9, 300}}}));  // three spacings are 36 m
    EXPECT_TRUE(differs({{{36.1, 0}, {36.1, 300}}}));
    const auto turned = [](double degrees) {
        const Point half = along_azimuth(units::rad_from_deg(degrees)) * 150.0;
        return MultiPolyline{{Point{0, 150} - half, Point{0, 150} + half}};
    };
    EXPECT_FALSE(differs(turned(29.9)));
    EXPECT_TRUE(differs(turned(30.1)));
    EXPECT_FALSE(differs(turned(150.1)));
    EXPECT_TRUE(differs({}));
    // Two halves side by side have the same middle as one line between them.
    EXPECT_FALSE(differs({{{-6, 75}, {-6, 225}}, {{6, 225}, {6, 75}}}));
}

}  // namespace
}  // namespace haylane
