// Sources: mass of diesel, 7.0 lb a US gallon at 60 F, and its growth of 0.00083 of the volume a
// kelvin (ASTM D1250's table, from memory); topping up a tank and weighing the can (common
// practice, no source); the rest is worked by hand beside the check.
#include "core/trials/trial_table.h"

#include "core/base/units.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

RawRow row(std::map<std::string, RawValue> fields, std::string where = "trials.csv, line 2") {
    fields.try_emplace("rig", std::string("Peeler"));
    fields.try_emplace("bales", 3.0);
    return {std::move(fields), {}, std::move(where)};
}

std::vector<std::string> codes(const TrialTable& table) {
    std::vector<std::string> all;
    for (const Problem& problem : table.problems) all.push_back(problem.code);
    return all;
}

TEST(TrialTable, TakesEveryColumn) {
    const std::vector<RawRow> rows{row({{"lot", std::string("creek grass")},
                                        {"date", std::string("2027-01-11")},
                                        {"pair", std::string("1")},
                                        {"bale_kg", 600.0},
                                        {"hookup_s", 240.0},
                                        {"unhook_s", 60.0},
                                        {"feed_s", 540.0},
                                        {"fuel_l", 5.0},
                                        {"bale_dm_ratio", 0.9},
                                        {"bale_cp_ratio", 0.1},
                                        {"windrow_cp_ratio", 0.08},
                                        {"windrow_ash_ratio", 0.12},
                                        {"wind_m_per_s", 0.0},
                                        {"line_length_m", 400.0},
                                        {"drift_downwind_m", 6.0}})};
    const TrialTable table = trial_table(rows);
    ASSERT_EQ(table.runs.size(), 1U);
    EXPECT_TRUE(table.problems.empty());
    const TrialRun& run = table.runs.front();
    EXPECT_EQ(run.rig, "Peeler");
    EXPECT_EQ(run.lot, "creek grass");
    EXPECT_EQ(run.pair, "1");
    EXPECT_EQ(format_day(run.date.value()), "2027-01-11");
    EXPECT_EQ(run.hookup_s, 240.0);
    EXPECT_EQ(run.unhook_s, 60.0);
    EXPECT_EQ(run.feed_s, 540.0);
    EXPECT_EQ(run.fuel_l, 5.0);
    EXPECT_FALSE(run.fuel_weighed);
    EXPECT_EQ(run.wind_m_per_s, 0.0);
    EXPECT_EQ(run.line_length_m, 400.0);
    EXPECT_EQ(run.drift_downwind_m, 6.0);
    EXPECT_EQ(run.in_windrow.cp_ratio, 0.08);
    EXPECT_EQ(run.in_windrow.ash_ratio, 0.12);
    EXPECT_EQ(run.in_bale.tdn_ratio, std::nullopt);
    EXPECT_NEAR(run.dm_kg().value(), 3.0 * 600.0 * 0.9, 1e-9);
}

// 14.0 lb at 60 F are 2 gallons; at 60 F + 18 F, 10 K warmer, 2.0166 gallons.
TEST(TrialTable, TurnsWeighedFuelIntoLitersAtItsTemperature) {
    const double kg = 14.0 * units::kKgPerPound;
    const double warm_c = (78.0 - 32.0) / 1.8;
    const std::vector<RawRow> rows{row({{"fuel_kg", kg}}),
                                   row({{"fuel_kg", kg}, {"fuel_temp_c", warm_c}}),
                                   row({{"fuel_kg", kg}, {"fuel_l", 99.0}})};
    const TrialTable table = trial_table(rows);
    ASSERT_EQ(table.runs.size(), 3U);
    EXPECT_NEAR(table.runs[0].fuel_l.value(), 2.0 * units::kLitersPerGallon, 1e-9);
    EXPECT_NEAR(table.runs[1].fuel_l.value(), 2.0166 * units::kLitersPerGallon, 1e-9);
    EXPECT_NEAR(table.runs[2].fuel_l.value(), 2.0 * units::kLitersPerGallon, 1e-9);
    EXPECT_TRUE(table.runs[0].fuel_weighed);
    EXPECT_EQ(codes(table), std::vector<std::string>{"fuel_twice"});
}

TEST(TrialTable, TakesTimePerBaleForAllBales) {
    const std::vector<RawRow> rows{row({{"feed_s_per_bale", 180.0}}),
                                   row({{"feed_s_per_bale", 180.0}, {"feed_s", 500.0}})};
    const TrialTable table = trial_table(rows);
    EXPECT_EQ(table.runs.at(0).feed_s, 540.0);
    EXPECT_EQ(table.runs.at(1).feed_s, 500.0);
    EXPECT_EQ(codes(table), std::vector<std::string>{"feed_twice"});
}

TEST(TrialTable, LeavesOutRowsThatSayTooLittleOrNothingNew) {
    const std::vector<RawRow> rows{
        row({{"rig", std::string("  ")}}, "trials.csv, line 2"),
        row({{"bales", 0.0}}, "trials.csv, line 3"),
        row({{"bales", RawValue{}}}, "trials.csv, line 4"),
        row({{"feed_s", 500.0}}, "trials.csv, line 5"),
        row({{"feed_s", 500.0}}, "again.csv, line 2"),
        row({{"feed_s", 500.0}, {"pair", std::string("2")}}, "again.csv, line 3")};
    const TrialTable table = trial_table(rows);
    ASSERT_EQ(table.runs.size(), 2U);
    EXPECT_EQ(table.runs[0].where, "trials.csv, line 5");
    EXPECT_EQ(table.runs[1].where, "again.csv, line 3");
    EXPECT_EQ(codes(table), (std::vector<std::string>{"trial_without_rig", "trial_without_bales",
                                                      "trial_without_bales", "trial_twice"}));
    EXPECT_EQ(table.problems.back().where, "again.csv, line 2");
    EXPECT_NE(table.problems.back().text.find("trials.csv, line 5"), std::string::npos);
}

TEST(TrialTable, LeavesOutCellsThatCannotBeTrue) {
    const std::vector<RawRow> rows{row({{"hookup_s", -60.0},
                                        {"fuel_l", 0.0},
                                        {"bale_cp_ratio", 1.4},
                                        {"windrow_dm_ratio", -0.1},
                                        {"drift_downwind_m", 0.0},
                                        {"date", std::string("2027-02-30")}})};
    const TrialTable table = trial_table(rows);
    ASSERT_EQ(table.runs.size(), 1U);
    EXPECT_EQ(table.runs[0].hookup_s, std::nullopt);
    EXPECT_EQ(table.runs[0].fuel_l, std::nullopt);
    EXPECT_EQ(table.runs[0].in_bale.cp_ratio, std::nullopt);
    EXPECT_EQ(table.runs[0].in_windrow.dm_ratio, std::nullopt);
    EXPECT_EQ(table.runs[0].date, std::nullopt);
    EXPECT_EQ(table.runs[0].drift_downwind_m, 0.0);
    EXPECT_EQ(codes(table),
              (std::vector<std::string>{"bad_date", "trial_not_positive", "trial_not_positive",
                                        "trial_share", "trial_share"}));
}

}  // namespace
}  // namespace haylane
