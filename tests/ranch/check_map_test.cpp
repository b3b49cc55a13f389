// The map's part of checking: each odd thing alone on a sound ranch; areas and distances by hand.
#include "core/base/units.h"
#include "core/geometry/polygon.h"
#include "tests/ranch/raw_maker.h"

#include <gtest/gtest.h>

namespace haylane::testing {
namespace {

TEST(CheckRanch, FindsNothingOddInASoundRanch) {
    CHECKED_RANCH(checked, sound_ranch());
    for (const Problem& problem : checked.problems) ADD_FAILURE() << problem.text;
    EXPECT_EQ(checked.ranch.name, "Test ranch");
    EXPECT_EQ(checked.ranch.latitude_rad, 0.8);
    ASSERT_EQ(checked.ranch.pastures.size(), 2U);
    EXPECT_EQ(checked.ranch.pastures[1].ground, Ground::native);
    EXPECT_NEAR(area_m2(checked.ranch.pastures[0].shape), 160000.0, 1e-6);
    EXPECT_FALSE(is_switched_off(checked, "plan"));
    EXPECT_TRUE(is_switched_off(checked, "slope limits"));
    EXPECT_TRUE(is_switched_off(checked, "history"));
}

TEST(CheckRanch, WorksWithPasturesAloneAndSaysWhatIsOff) {
    RawRanch raw;
    raw.roles["pastures"] = {row({{"name", "Only"}}, square(0, 0, 100))};
    CHECKED_RANCH(checked, raw);
    EXPECT_EQ(checked.ranch.pastures.size(), 1U);
    for (const char* feature :
         {"plan", "slope limits", "cold, wind and thaw", "soil-test targets", "history", "ways",
          "off-limits ground", "dung by water", "dung by shelter and lee ground", "soft ground",
          "yard siting", "cost", "hay short at turn-out"}) {
        EXPECT_TRUE(is_switched_off(checked, feature)) << feature;
    }
}

TEST(CheckRanch, FailsWithoutAnyUsablePasture) {
    RawRanch raw = sound_ranch();
    raw.roles.erase("pastures");
    const auto none = check_ranch(raw);
    ASSERT_FALSE(none.has_value());
    EXPECT_EQ(none.error().code, "missing_pastures");
    EXPECT_FALSE(none.error().remedy.empty());
    raw.roles["pastures"] = {row({{"name", "Flat"}}, MultiPolygon{{{{0, 0}, {1, 1}}, {}}})};
    const auto flat = check_ranch(raw);
    ASSERT_FALSE(flat.has_value());
    EXPECT_EQ(flat.error().code, "no_usable_pasture");
    EXPECT_NE(flat.error().what.find("Flat"), std::string::npos);
}

TEST(CheckRanch, KeepsGoodPasturesBesideOnesWithoutAShape) {
    RawRanch raw = sound_ranch();
    raw.roles["pastures"].push_back(row({{"name", "Ghost"}}));
    CHECKED_RANCH(checked, raw);
    EXPECT_EQ(checked.ranch.pastures.size(), 2U);
    EXPECT_PROBLEM(checked, "wrong_geometry", Severity::error, "Ghost");
}

TEST(CheckRanch, TakesOneNameTwiceAsPartsOfOnePasture) {
    RawRanch raw = sound_ranch();
    raw.roles["pastures"].push_back(row({{"name", "South"}}, square(1000, 0, 100)));
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.pastures.size(), 2U);
    EXPECT_NEAR(area_m2(checked.ranch.pastures[0].shape), 170000.0, 1e-6);
    EXPECT_EQ(checked.ranch.pastures[0].ground, Ground::tame);
    EXPECT_PROBLEM(checked, "same_name_parts", Severity::warning, "South");
}

TEST(CheckRanch, NamesFeaturesThatHaveNone) {
    RawRanch raw = sound_ranch();
    raw.roles["water"] = {row({}, Point{10, 10})};
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.water.size(), 1U);
    EXPECT_EQ(checked.ranch.water[0].name, "water 1");
    EXPECT_PROBLEM(checked, "missing_name", Severity::warning, "water 1");
}

TEST(CheckRanch, NumbersGatesOfTheSameName) {
    RawRanch raw = sound_ranch();
    raw.roles["gates"][1].fields["name"] = "South gate";
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.gates.size(), 2U);
    EXPECT_EQ(checked.ranch.gates[1].name, "South gate (2)");
    EXPECT_PROBLEM(checked, "duplicate_key", Severity::warning, "South gate");
}

// A bow tie of two triangles of 100 m2 each: by even-odd all of it stays.
TEST(CheckRanch, RepairsAnOutlineThatCrossesItself) {
    RawRanch raw = sound_ranch();
    raw.roles["pastures"].push_back(
        row({{"name", "Bow"}}, MultiPolygon{{{{1000, 0}, {1020, 20}, {1020, 0}, {1000, 20}}, {}}}));
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.pastures.size(), 3U);
    EXPECT_NEAR(area_m2(checked.ranch.pastures[2].shape), 200.0, 1e-6);
    EXPECT_PROBLEM(checked, "self_crossing_polygon", Severity::warning, "Bow");
}

// 10 m by 400 m of overlap is 4,000 m2 = 0.99 acre.
TEST(CheckRanch, MeasuresOverlapsInTheUsersUnit) {
    RawRanch raw = sound_ranch();
    raw.roles["pastures"][1].shape = square(0, 390, 400);
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "overlapping_pastures", Severity::warning, "0.99 ac");
    raw.roles["settings"] = {row({{"key", "units"}, {"value", "metric"}})};
    CHECKED_RANCH(metric, raw);
    EXPECT_PROBLEM(metric, "overlapping_pastures", Severity::warning, "0.40 ha");
}

TEST(CheckRanch, FillsSetbacksByKindAndSaysSo) {
    RawRanch raw = sound_ranch();
    raw.roles["off_limits"] = {
        row({{"name", "Pond"}, {"kind", "water"}}, square(50, 50, 20)),
        row({{"name", "Well"}, {"kind", "well"}, {"setback_m", 90.0}}, Point{300, 300}),
        row({{"name", "Rocks"}, {"kind", "other"}}, Point{310, 300})};
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.off_limits.size(), 3U);
    EXPECT_EQ(checked.ranch.off_limits[0].setback_m, 30.5);  // 100 ft, 40 CFR 412.4(c)(5)
    EXPECT_FALSE(checked.ranch.off_limits[0].setback_given);
    EXPECT_EQ(checked.ranch.off_limits[1].setback_m, 90.0);
    EXPECT_TRUE(checked.ranch.off_limits[1].setback_given);
    EXPECT_EQ(checked.ranch.off_limits[2].setback_m, 0.0);
    EXPECT_PROBLEM(checked, "setback_missing", Severity::warning, "heck state and local code");
    EXPECT_EQ(std::count_if(checked.problems.begin(), checked.problems.end(),
                            [](const Problem& p) { return p.code == "setback_missing"; }),
              1);
}

TEST(CheckRanch, TakesAnUnknownKindAsTheSafeSide) {
    RawRanch raw = sound_ranch();
    raw.roles["off_limits"] = {row({{"name", "Bog"}, {"kind", "watr"}}, square(50, 50, 20))};
    CHECKED_RANCH(checked, raw);
    EXPECT_EQ(checked.ranch.off_limits[0].kind, OffLimitsKind::wetland);
    EXPECT_PROBLEM(checked, "unknown_enum_value", Severity::warning, "watr");
    EXPECT_NE(find_problem(checked, "unknown_enum_value")->remedy.find("\"water\""),
              std::string::npos);
}

TEST(CheckRanch, FindsGatesAndYardsOnOffLimitsGround) {
    RawRanch raw = sound_ranch();
    raw.roles["off_limits"] = {
        row({{"name", "Creek"}, {"kind", "water"}, {"setback_m", 5.0}},
            MultiPolyline{{{0, 0}, {400, 0}}}),
        row({{"name", "Barn"}, {"kind", "building"}, {"setback_m", 5.0}}, square(190, -70, 20))};
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "gate_in_off_limits", Severity::warning, "South gate");
    EXPECT_PROBLEM(checked, "yard_in_off_limits", Severity::warning, "Stack yard");
}

TEST(CheckRanch, FindsAPastureThatIsOffLimitsAllOver) {
    RawRanch raw = sound_ranch();
    raw.roles["off_limits"] = {
        row({{"name", "Lake"}, {"kind", "water"}, {"setback_m", 40.0}}, square(20, 420, 360))};
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "no_feedable_ground", Severity::warning, "North");
}

TEST(CheckRanch, FindsGatesAwayFromEveryFence) {
    RawRanch raw = sound_ranch();
    raw.roles["gates"].push_back(row({{"name", "Lost gate"}}, Point{200, 211}));
    raw.roles["gates"].push_back(row({{"name", "Near gate"}}, Point{200, 391}));
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "gate_far_from_fence", Severity::warning, "Lost gate");
    EXPECT_NE(find_problem(checked, "gate_far_from_fence")->text.find("620 ft"),
              std::string::npos);  // 189 m from the north fence
    EXPECT_EQ(std::count_if(checked.problems.begin(), checked.problems.end(),
                            [](const Problem& p) { return p.code == "gate_far_from_fence"; }),
              1);
}

TEST(CheckRanch, FindsPasturesWithoutAGate) {
    RawRanch raw = sound_ranch();
    raw.roles["pastures"].push_back(row({{"name", "Shut"}}, square(1000, 0, 100)));
    raw.roles["pastures"].push_back(row({{"name", "Hay"}, {"feed", "no"}}, square(2000, 0, 100)));
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "pasture_without_gate", Severity::warning, "Shut");
    EXPECT_FALSE(checked.ranch.pastures[3].feed);
    EXPECT_EQ(std::count_if(checked.problems.begin(), checked.problems.end(),
                            [](const Problem& p) { return p.code == "pasture_without_gate"; }),
              1);
}

TEST(CheckRanch, FindsTrailsThatCrossAFenceWithoutAGate) {
    RawRanch raw = sound_ranch();
    raw.roles["trails"].push_back(
        row({{"name", "Shortcut"}}, MultiPolyline{{{50, -20}, {50, 200}, {350, 200}, {350, 900}}}));
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "trail_crosses_fence_without_gate", Severity::warning, "Shortcut");
    const std::string& text = find_problem(checked, "trail_crosses_fence_without_gate")->text;
    EXPECT_NE(text.find("\"South\" (2)"), std::string::npos) << text;
    EXPECT_NE(text.find("\"North\" (2)"), std::string::npos) << text;
}

TEST(CheckRanch, FindsYardsThatNoTrailReaches) {
    RawRanch raw = sound_ranch();
    raw.roles["yards"].push_back(row({{"name", "Far yard"}}, Point{3000, -2000}));
    raw.roles["yards"].push_back(row({{"name", "Field yard"}}, Point{100, 100}));
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "yard_unreachable", Severity::warning, "Far yard");
    EXPECT_EQ(std::count_if(checked.problems.begin(), checked.problems.end(),
                            [](const Problem& p) { return p.code == "yard_unreachable"; }),
              1);
}

TEST(CheckRanch, TakesTheMiddleOfAYardDrawnAsAnArea) {
    RawRanch raw = sound_ranch();
    raw.roles["yards"][0].shape = square(190, -70, 20);
    CHECKED_RANCH(checked, raw);
    EXPECT_NEAR(distance_m(checked.ranch.yards[0].at, Point{200, -60}), 0.0, 1e-9);
    EXPECT_PROBLEM(checked, "point_expected", Severity::warning, "Stack yard");
}

TEST(CheckRanch, TakesATrailDrawnAsAnAreaByItsOutline) {
    RawRanch raw = sound_ranch();
    raw.roles["trails"].push_back(row({{"name", "Loop"}}, square(100, 100, 50)));
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.trails.size(), 2U);
    EXPECT_NEAR(length_m(checked.ranch.trails[1].path.front()), 200.0, 1e-9);
    EXPECT_PROBLEM(checked, "line_expected", Severity::warning, "Loop");
}

TEST(CheckRanch, ReadsGateAndTrailDetails) {
    RawRanch raw = sound_ranch();
    raw.roles["gates"][0].fields["closed_from"] = "01-20";
    raw.roles["gates"][0].fields["closed_to"] = "03-15";
    raw.roles["gates"][0].fields["open_s"] = 60.0;
    raw.roles["trails"][0].fields["max_kg"] = 12700.0;
    raw.roles["shelter"] = {
        row({{"name", "Break"}, {"height_m", 7.6}}, MultiPolyline{{{10, 10}, {60, 10}}})};
    raw.roles["soft"] = {row({{"name", "Bottom"}}, square(300, 300, 50))};
    raw.roles["hay_fields"] = {row({{"name", "Meadow"}, {"hay_kg", 1e5}}, Point{900, 0})};
    CHECKED_RANCH(checked, raw);
    EXPECT_TRUE(checked.problems.empty());
    EXPECT_TRUE(checked.ranch.gates[0].closed.holds(std::chrono::year(2027) / 2 / 1));
    EXPECT_FALSE(checked.ranch.gates[0].closed.holds(std::chrono::year(2027) / 4 / 1));
    EXPECT_EQ(checked.ranch.gates[0].open_s, 60.0);
    EXPECT_EQ(checked.ranch.gates[1].open_s, 180.0);
    EXPECT_EQ(checked.ranch.trails[0].surface, Surface::dirt);
    EXPECT_EQ(checked.ranch.trails[0].max_kg, 12700.0);
    EXPECT_EQ(checked.ranch.shelter[0].height_m, 7.6);
    EXPECT_EQ(checked.ranch.soft.size(), 1U);
    EXPECT_EQ(checked.ranch.hay_fields[0].hay_kg, 1e5);
}

}  // namespace
}  // namespace haylane::testing
