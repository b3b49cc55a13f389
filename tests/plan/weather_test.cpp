// Checks that weather and calving move a week's lines as the rules say, on the small ranch. The
// rules are common practice, no source; temperatures and winds are chosen well beyond the limits.
#include "core/plan/ground_need.h"
#include "core/plan/move_line.h"
#include "core/plan/plan_days.h"
#include "tests/support/small_ranch.h"

#include <algorithm>
#include <limits>
#include <string>
#include <utility>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::small_ranch;
using testing::square;

const sys_days kFrom = day("2026-01-10");

PlanResult planned(const CheckedRanch& checked, int days = 4, int threads = 1) {
    auto result = plan_days(checked, {.from = kFrom, .days = days, .seed = 3, .threads = threads});
    EXPECT_TRUE(result.has_value())
        << (result ? "" : result.error().what + " " + result.error().where);
    return result ? std::move(*result) : PlanResult{};
}

WeatherDay storm(int d) {
    return {.date = kFrom + std::chrono::days{d},
            .wind_from_rad = 0.0,
            .wind_m_per_s = 10.0,
            .low_c = -24.0,
            .high_c = -14.0};
}

WeatherDay calm(int d) {
    return {
        .date = kFrom + std::chrono::days{d}, .wind_m_per_s = 1.0, .low_c = -8.0, .high_c = 2.0};
}

// A windbreak 8 m high across West: out of a north wind lies y = 520 to 560.
CheckedRanch with_windbreak() {
    CheckedRanch checked = small_ranch();
    checked.ranch.shelter = {{.name = "the windbreak",
                              .area = {},
                              .lines = {{{50, 600}, {750, 600}}},
                              .points = {},
                              .height_m = 8.0}};
    return checked;
}

FeedingRecord fed_line(sys_days on, Polyline line) {
    return {.from = on,
            .to = on,
            .herd = HerdId::at(0),
            .pasture = PastureId::at(0),
            .bales = 4.0,
            .bale_dm_kg = 510.0,
            .shape = MultiPolyline{std::move(line)},
            .where = "feedings, row"};
}

bool has_problem(const Plan& plan, const std::string& code, const std::string& where) {
    return std::any_of(plan.problems.begin(), plan.problems.end(), [&](const Problem& p) {
        return p.code == code && p.where.find(where) != std::string::npos;
    });
}

bool has_caution(const PlannedFeeding& feeding, const std::string& code) {
    return std::any_of(feeding.cautions.begin(), feeding.cautions.end(),
                       [&](const Caution& c) { return c.code == code; });
}

bool lies_in_lee(const PlannedFeeding& feeding) {
    for (const PlannedLine& line : feeding.lines)
        for (const Point p : line.path)
            if (p.y < 520.0 || p.y > 560.0 || p.x < 50.0 || p.x > 750.0) return false;
    return true;
}

TEST(GroundNeed, ColdAndWindyTakesBoth) {
    Ranch ranch = small_ranch().ranch;
    EXPECT_FALSE(is_cold_and_windy(ranch, kFrom));  // no weather known
    const auto with = [&](WeatherDay weather) {
        ranch.weather = {weather};
        return is_cold_and_windy(ranch, kFrom);
    };
    EXPECT_TRUE(with(storm(0)));
    WeatherDay light = storm(0);
    light.wind_m_per_s = 4.4;  // under 10 mph
    EXPECT_FALSE(with(light));
    WeatherDay mild = storm(0);
    mild.low_c = 10.0;
    mild.high_c = 20.0;  // 59 F less 1.05 x 22.4 mph = 35.5 F, above 18 F
    EXPECT_FALSE(with(mild));
    mild.wet = true;  // but below 59 F
    EXPECT_TRUE(with(mild));
    WeatherDay unknown = storm(0);
    unknown.wind_from_rad.reset();
    EXPECT_TRUE(with(unknown));
    EXPECT_FALSE(cold_wind_from_rad(ranch, kFrom).has_value());
}

TEST(GroundNeed, CalvingCountsFromItsDayInTheSeason) {
    Ranch ranch = small_ranch().ranch;
    const HerdId cows = HerdId::at(0);
    EXPECT_FALSE(calving_since(ranch, cows, day("2026-03-01")));
    ranch.herds[0].calving_from = *parse_date_mark("02-20");
    EXPECT_FALSE(calving_since(ranch, cows, day("2026-02-19")));
    EXPECT_EQ(calving_since(ranch, cows, day("2026-02-20")), day("2026-02-20"));
    EXPECT_EQ(calving_since(ranch, cows, day("2026-06-30")), day("2026-02-20"));
    EXPECT_FALSE(calving_since(ranch, cows, day("2026-11-15")));  // that was last season's
    ranch.herds[0].calving_from = *parse_date_mark("11-20");
    EXPECT_EQ(calving_since(ranch, cows, day("2026-01-10")), day("2025-11-20"));
    ranch.herds[0].calving_from = *parse_date_mark("2026-02-20");
    EXPECT_FALSE(calving_since(ranch, cows, day("2026-02-19")));
    EXPECT_EQ(calving_since(ranch, cows, day("2026-03-01")), day("2026-02-20"));
    EXPECT_FALSE(calving_since(ranch, cows, day("2027-03-01")));
}

TEST(GroundNeed, FreshGroundIsGivenUpBeforeTheLee) {
    const GroundNeed all{.lee_of_rad = 1.0, .fresh_since = kFrom};
    const auto order = as_it_yields(all);
    ASSERT_EQ(order.size(), 4U);
    EXPECT_EQ(order[0], all);
    EXPECT_TRUE(order[1].lee_of_rad && !order[1].fresh_since);
    EXPECT_TRUE(!order[2].lee_of_rad && order[2].fresh_since);
    EXPECT_EQ(order[3], GroundNeed{});
    EXPECT_EQ(as_it_yields({}).size(), 1U);
    EXPECT_EQ(as_it_yields({.lee_of_rad = 1.0}).size(), 2U);
    EXPECT_EQ(as_it_yields({.fresh_since = kFrom}).size(), 2U);
}

TEST(Weather, OnColdWindyDaysLinesLieInTheLeeAndTheBlockIsGoneOnWithAfterwards) {
    CheckedRanch checked = with_windbreak();
    const Plan before = planned(checked).plan;
    checked.ranch.weather = {calm(0), storm(1), storm(2), calm(3)};
    const Plan plan = planned(checked).plan;
    const PlannedFeeding* first = nullptr;
    for (const PlannedFeeding& feeding : plan.feedings) {
        if (feeding.herd != HerdId::at(0)) continue;
        const auto d = (feeding.date - kFrom).count();
        const bool windy = d == 1 || d == 2;
        EXPECT_EQ(lies_in_lee(feeding), windy) << d;
        if (d == 0) first = &feeding;
        if (d != 3) continue;
        ASSERT_NE(first, nullptr);
        double away = std::numeric_limits<double>::infinity();
        for (const PlannedLine& a : feeding.lines)
            for (const PlannedLine& b : first->lines)
                away = std::min(away, distance_m(a.path, b.path));
        EXPECT_NEAR(away, checked.ranch.settings.spacing_m, 0.5);  // beside the calm day's line
    }
    EXPECT_FALSE(has_problem(plan, "wind_yielded", "Cows"));
    EXPECT_TRUE(has_problem(plan, "wind_yielded", "Own count"));  // no shelter in East
    for (const PlannedFeeding& feeding : before.feedings) EXPECT_FALSE(lies_in_lee(feeding));
    EXPECT_LE(plan.optimality.lower_bound, plan.optimality.objective);
}

double least_away_m(const PlannedFeeding& feeding, const Polyline& from) {
    double away = std::numeric_limits<double>::infinity();
    for (const PlannedLine& line : feeding.lines)
        away = std::min(away, distance_m(line.path, from));
    return away;
}

// Yesterday's storm line is no place to go on from on a calm day, nor a calm day's in a storm.
TEST(Weather, LinesOnRecordAreGoneOnWithInTheirOwnWeather) {
    const Polyline calm_line{{200, 300}, {340, 300}};
    const Polyline storm_line{{200, 540}, {340, 540}};
    CheckedRanch checked = with_windbreak();
    checked.ranch.herds.resize(1);
    for (FeedingRecord& old : checked.ranch.feedings) old.herd.reset();
    checked.ranch.feedings.push_back(fed_line(kFrom - std::chrono::days{2}, calm_line));
    checked.ranch.feedings.push_back(fed_line(kFrom - std::chrono::days{1}, storm_line));
    checked.ranch.herds[0].head = 40;           // one or two bales a day: one line
    checked.ranch.settings.move_worth_s = 1e7;  // never moves for evenness alone
    const double spacing = checked.ranch.settings.spacing_m;
    checked.ranch.weather = {storm(-1), calm(0)};
    EXPECT_NEAR(least_away_m(planned(checked, 1).plan.feedings.at(0), calm_line), spacing, 0.01);
    checked.ranch.weather = {storm(-1), storm(0)};
    const PlannedFeeding storm_day = planned(checked, 1).plan.feedings.at(0);
    EXPECT_NEAR(least_away_m(storm_day, storm_line), spacing, 0.01) << storm_day.why;
    EXPECT_TRUE(lies_in_lee(storm_day));
}

TEST(Weather, ALineMovedOutOfTheLeeSaysSo) {
    CheckedRanch checked = with_windbreak();
    checked.ranch.herds.resize(1);
    checked.ranch.weather = {storm(0)};
    auto kept = keep_plan(checked, {.from = kFrom, .days = 1, .seed = 3, .threads = 1});
    ASSERT_TRUE(kept.has_value());
    MultiPolyline lines;
    for (const PlannedLine& line : kept->result.plan.feedings.at(0).lines)
        lines.push_back(line.path);
    LineMover mover(*kept);
    const auto says = [&](const MultiPolyline& where) {
        const auto moved = mover.move(0, where);
        EXPECT_TRUE(moved.has_value());
        return moved && std::find(moved->yielded.begin(), moved->yielded.end(),
                                  "It lies out in a cold north wind.") != moved->yielded.end();
    };
    EXPECT_FALSE(says(lines));
    for (Polyline& line : lines)
        for (Point& p : line) p.y -= 200.0;
    EXPECT_TRUE(says(lines));
}

TEST(Weather, AColdWindFromNobodyKnowsWhereIsACaution) {
    CheckedRanch checked = with_windbreak();
    checked.ranch.weather = {storm(0)};
    checked.ranch.weather[0].wind_from_rad.reset();
    const Plan plan = planned(checked, 1).plan;
    ASSERT_FALSE(plan.feedings.empty());
    for (const PlannedFeeding& feeding : plan.feedings)
        EXPECT_TRUE(has_caution(feeding, "wind_unknown"));
    EXPECT_FALSE(has_problem(plan, "wind_yielded", ""));
}

// Rest has ended on all old ground, but not for cows that calve: only a corner was not fed on.
CheckedRanch fed_before_calving() {
    CheckedRanch checked = small_ranch();
    Ranch& r = checked.ranch;
    r.herds.resize(1);
    r.settings.rest_days = 3;
    r.herds[0].calving_from = *parse_date_mark("2026-01-12");
    for (int i = 0; i < 60; ++i) {
        const double y = 6.0 + 12.0 * i;
        r.feedings.push_back(fed_line(day("2025-12-01"), {{6, y}, {794, y}}));
    }
    FeedingRecord patch = fed_line(day("2025-12-02"), {});
    patch.shape = square(0, 720, 400, 800);
    r.feedings.push_back(patch);
    return checked;
}

TEST(Calving, LinesKeepOffAllGroundFedThisSeason) {
    const Plan plan = planned(fed_before_calving(), 5).plan;
    int calving = 0;
    for (const PlannedFeeding& feeding : plan.feedings) {
        if (feeding.date < day("2026-01-12")) continue;
        ++calving;
        for (const PlannedLine& line : feeding.lines) {
            for (const Point p : line.path) {
                EXPECT_GE(p.x, 400.0 + 12.0 - 0.03);
                EXPECT_GE(p.y, 714.0 + 12.0 - 0.03);
            }
        }
    }
    EXPECT_EQ(calving, 3);
    EXPECT_FALSE(has_problem(plan, "calving_yielded", ""));
}

// Five spacings where there is room, an assumption; a spacing is the rule.
TEST(Calving, BeginsANewPieceOfGroundWellAwayFromTheOld) {
    CheckedRanch checked = small_ranch();
    Ranch& r = checked.ranch;
    r.herds.resize(1);
    r.herds[0].calving_from = *parse_date_mark("2026-01-12");
    r.settings.move_worth_s = 1e7;  // never moves for evenness alone
    const Polyline last{{200, 300}, {340, 300}};
    for (FeedingRecord& old : r.feedings) old.herd.reset();
    r.feedings.push_back(fed_line(kFrom - std::chrono::days{1}, last));
    for (const PlannedFeeding& feeding : planned(checked, 4).plan.feedings) {
        const bool calving = feeding.date >= day("2026-01-12");
        const double away = least_away_m(feeding, last);
        if (calving) {
            EXPECT_GE(away, 60.0 - 0.2);
        } else {
            EXPECT_LT(away, 40.0) << feeding.why;  // beside it
        }
        EXPECT_EQ(feeding.why.find("clean for calves") != std::string::npos, calving);
    }
}

TEST(Calving, SaysSoWhereNoFreshGroundIsLeft) {
    CheckedRanch checked = fed_before_calving();
    checked.ranch.feedings.back().shape = square(0, 0, 800, 800);
    const Plan plan = planned(checked, 3).plan;
    EXPECT_TRUE(has_problem(plan, "calving_yielded", "2026-01-12"));
    EXPECT_FALSE(has_problem(plan, "calving_yielded", "2026-01-11"));
}

int first_day_with_storm_caution(const CheckedRanch& checked) {
    for (const PlannedFeeding& feeding : planned(checked).plan.feedings) {
        if (feeding.pasture != PastureId::at(0)) continue;
        if (has_caution(feeding, "storm_ground"))
            return static_cast<int>((feeding.date - kFrom).count());
    }
    return -1;
}

TEST(StormGround, SacrificeGroundIsCountedWhateverLiesWhere) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.feedings.clear();
    checked.ranch.pastures[0].sacrifice = true;
    for (int d = 1; d <= 9; ++d)
        checked.ranch.feedings.push_back(
            fed_line(kFrom - std::chrono::days{d}, {{100, 100}, {300, 100}}));
    FeedingRecord last_season = fed_line(day("2025-05-01"), {{100, 100}, {300, 100}});
    last_season.from = day("2025-03-01");
    checked.ranch.feedings.push_back(last_season);
    EXPECT_EQ(first_day_with_storm_caution(checked), 1);  // the eleventh day
    checked.ranch.pastures[0].sacrifice = false;
    EXPECT_EQ(first_day_with_storm_caution(checked), -1);
}

TEST(StormGround, TheLeeIsCountedByTheLinesInIt) {
    CheckedRanch checked = with_windbreak();
    checked.ranch.herds.resize(1);
    checked.ranch.weather = {storm(0), storm(1), calm(2), storm(3)};
    const auto with = [&](int in_lee, int outside) {
        CheckedRanch fed = checked;
        for (int d = 1; d <= in_lee + outside; ++d) {
            const double y = d <= in_lee ? 540.0 : 300.0;
            fed.ranch.feedings.push_back(
                fed_line(kFrom - std::chrono::days{d}, {{100, y}, {300, y}}));
        }
        return first_day_with_storm_caution(fed);
    };
    EXPECT_EQ(with(10, 0), 0);  // the eleventh day
    EXPECT_EQ(with(9, 5), 1);   // 9 and two of the plan's
    EXPECT_EQ(with(8, 5), 3);   // the calm day does not count
    EXPECT_EQ(with(7, 5), -1);
}

TEST(Weather, TheThawCautionSaysUntilWhenDirtCarries) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.settings.carry_until = std::chrono::minutes{8 * 60 + 5};
    checked.ranch.weather = {{.date = kFrom, .low_c = -5.0, .high_c = 6.0, .thaw = true}};
    const Plan plan = planned(checked, 1).plan;
    ASSERT_EQ(plan.feedings.size(), 1U);
    const auto& cautions = plan.feedings[0].cautions;
    const auto thaw = std::find_if(cautions.begin(), cautions.end(),
                                   [](const Caution& c) { return c.code == "thaw"; });
    ASSERT_NE(thaw, cautions.end());
    EXPECT_NE(thaw->text.find("back by 8:05."), std::string::npos);
    EXPECT_EQ(thaw->brief, "thaw, back by 8:05");
}

}  // namespace
}  // namespace haylane
