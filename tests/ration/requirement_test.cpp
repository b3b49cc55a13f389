// Checks against Alberta Agdex 420/52-4: CP 7-9-11 % and TDN 55-60-65 % in mid gestation, late
// gestation and after calving. The calendar's own rules are the model page's.
#include "core/ration/requirement.h"

#include <array>
#include <chrono>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using std::chrono::days;

sys_days day(const char* text) { return parse_day(text).value(); }

Herd calving(const char* mark, Stage stage = Stage::other) {
    Herd herd;
    herd.stage = stage;
    herd.calving_from = parse_date_mark(mark).value();
    return herd;
}

TEST(Requirement, IsTheRuleOfThumbByStage) {
    struct Row {
        Stage stage;
        double cp, tdn;
    };
    constexpr std::array kRows{Row{Stage::mid_gestation, 0.07, 0.55}, Row{Stage::dry, 0.07, 0.55},
                               Row{Stage::late_gestation, 0.09, 0.60},
                               Row{Stage::lactating, 0.11, 0.65}};
    for (const Row& row : kRows) {
        const auto need = requirement(row.stage);
        ASSERT_TRUE(need);
        EXPECT_DOUBLE_EQ(need->cp_ratio, row.cp);
        EXPECT_DOUBLE_EQ(need->tdn_ratio, row.tdn);
    }
}

// NRC 2000 by its equations, 1,200 and 1,400 lb cows: the rule of thumb must not be below them by
// more than half a point of CP, nor below them in TDN.
TEST(Requirement, IsNotBelowTheEquations) {
    struct Row {
        Stage stage;
        double cp, tdn;
    };
    constexpr std::array kRows{
        Row{Stage::mid_gestation, 0.068, 0.489}, Row{Stage::late_gestation, 0.080, 0.548},
        Row{Stage::late_gestation, 0.089, 0.584}, Row{Stage::lactating, 0.115, 0.612}};
    for (const Row& row : kRows) {
        EXPECT_GE(requirement(row.stage)->cp_ratio, row.cp - 0.0051);
        EXPECT_GE(requirement(row.stage)->tdn_ratio, row.tdn);
    }
}

TEST(Requirement, DoesNotReachGrowingCattleAndBulls) {
    EXPECT_FALSE(requirement(Stage::growing_heifer));
    EXPECT_FALSE(requirement(Stage::bull));
    EXPECT_FALSE(requirement(Stage::other));
}

TEST(StageOn, IsTheHerdsOwnWordWithoutCalvingDates) {
    Herd herd;
    herd.stage = Stage::late_gestation;
    EXPECT_EQ(stage_on(herd, day("2027-07-01")), Stage::late_gestation);
}

TEST(StageOn, FollowsAYearlyCalvingDate) {
    const Herd herd = calving("03-15");
    EXPECT_EQ(stage_on(herd, day("2026-12-14")), Stage::mid_gestation);
    EXPECT_EQ(stage_on(herd, day("2026-12-15")), Stage::late_gestation);
    EXPECT_EQ(stage_on(herd, day("2027-03-14")), Stage::late_gestation);
    EXPECT_EQ(stage_on(herd, day("2027-03-15")), Stage::lactating);
    EXPECT_EQ(stage_on(herd, day("2027-03-15") + days(204)), Stage::lactating);
    EXPECT_EQ(stage_on(herd, day("2027-03-15") + days(205)), Stage::mid_gestation);
}

TEST(StageOn, AutumnCalversAreInMilkOverNewYear) {
    const Herd herd = calving("09-01");
    EXPECT_EQ(stage_on(herd, day("2027-01-10")), Stage::lactating);
    EXPECT_EQ(stage_on(herd, day("2027-06-05")), Stage::late_gestation);
}

TEST(StageOn, LeapDayCalvingFallsOnTheLastOfFebruary) {
    EXPECT_EQ(stage_on(calving("02-29"), day("2027-02-28")), Stage::lactating);
    EXPECT_EQ(stage_on(calving("02-29"), day("2027-02-27")), Stage::late_gestation);
}

TEST(StageOn, ADatedCalvingSpeaksForThatYearOnly) {
    const Herd herd = calving("2026-03-15", Stage::dry);
    EXPECT_EQ(stage_on(herd, day("2026-04-01")), Stage::lactating);
    EXPECT_EQ(stage_on(herd, day("2027-01-11")), Stage::dry);
}

TEST(StageOn, HeifersStayFirstCalfHeifers) {
    const Herd herd = calving("2027-03-01", Stage::bred_heifer);
    EXPECT_EQ(stage_on(herd, day("2026-11-01")), Stage::bred_heifer);
    EXPECT_EQ(stage_on(herd, day("2027-01-01")), Stage::first_calf_late);
    EXPECT_EQ(stage_on(herd, day("2027-03-02")), Stage::first_calf_lactating);
    EXPECT_EQ(stage_on(calving("03-01", Stage::bull), day("2027-03-02")), Stage::bull);
}

// Not fed as if empty: nitrate can cost the calf (common practice, no source).
TEST(StageOn, DryCowsCountAsInCalf) {
    EXPECT_TRUE(is_pregnant(Stage::dry));
    EXPECT_TRUE(is_pregnant(Stage::first_calf_late));
    EXPECT_FALSE(is_pregnant(Stage::lactating));
    EXPECT_FALSE(is_pregnant(Stage::bull));
    EXPECT_TRUE(is_lactating(Stage::first_calf_lactating));
    EXPECT_FALSE(is_lactating(Stage::dry));
}

}  // namespace
}  // namespace haylane
