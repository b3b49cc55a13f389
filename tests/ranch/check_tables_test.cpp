// The tables' part of checking: herds, hay, rigs, moves, weather, soil and settings, one fault
// each.
#include "core/base/units.h"
#include "core/ranch/check_support.h"
#include "tests/ranch/raw_maker.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace haylane::testing {
namespace {

TEST(CheckHerds, ResolvesPasturesByNameAndSuggestsTheNearest) {
    RawRanch raw = sound_ranch();
    raw.roles["herds"][0].fields["pastures"] = "South;Nroth; north";
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.herds.size(), 1U);
    const std::vector<PastureId> expected = {PastureId::at(0), PastureId::at(1)};
    EXPECT_EQ(checked.ranch.herds[0].pastures, expected);
    EXPECT_PROBLEM(checked, "unknown_pasture", Severity::warning, "Nroth");
    EXPECT_NE(find_problem(checked, "unknown_pasture")->remedy.find("\"North\""),
              std::string::npos);
}

TEST(CheckHerds, DropsAHerdThatHasNoPastureWithAnError) {
    RawRanch raw = sound_ranch();
    raw.roles["herds"][0].fields["pastures"] = "Nowhere at all";
    CHECKED_RANCH(checked, raw);
    EXPECT_TRUE(checked.ranch.herds.empty());
    EXPECT_PROBLEM(checked, "herd_without_pasture", Severity::error, "Cows");
    EXPECT_TRUE(is_switched_off(checked, "plan"));
}

TEST(CheckHerds, NeedsItsRequiredCells) {
    for (const char* column : {"herd", "head", "weight_kg", "pastures"}) {
        RawRanch raw = sound_ranch();
        raw.roles["herds"][0].fields.erase(column);
        CHECKED_RANCH(checked, raw);
        EXPECT_TRUE(checked.ranch.herds.empty());
        EXPECT_PROBLEM(checked, "missing_value", Severity::error, column);
    }
}

TEST(CheckHerds, DropsTheSecondOfOneName) {
    RawRanch raw = sound_ranch();
    raw.roles["herds"].push_back(raw.roles["herds"][0]);
    CHECKED_RANCH(checked, raw);
    EXPECT_EQ(checked.ranch.herds.size(), 1U);
    EXPECT_PROBLEM(checked, "duplicate_key", Severity::error, "Cows");
}

TEST(CheckHerds, LeavesOutOptionalNumbersThatMakeNoSense) {
    RawRanch raw = sound_ranch();
    raw.roles["herds"][0].fields["cake_cp_ratio"] = 1.2;
    raw.roles["herds"][0].fields["cake_kg"] = -1.0;
    raw.roles["herds"][0].fields["mineral_kg"] = "some";
    raw.roles["herds"][0].fields["feed_every_days"] = 1.6;
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.herds.size(), 1U);
    EXPECT_EQ(checked.ranch.herds[0].cake_cp_ratio, 0.0);
    EXPECT_EQ(checked.ranch.herds[0].cake_kg, 0.0);
    EXPECT_EQ(checked.ranch.herds[0].feed_every_days, 2);
    EXPECT_PROBLEM(checked, "number_out_of_range", Severity::warning, "1.2");
    EXPECT_PROBLEM(checked, "negative_number", Severity::warning, "-1");
    EXPECT_PROBLEM(checked, "not_a_number", Severity::warning, "some");
    EXPECT_PROBLEM(checked, "not_a_whole_number", Severity::warning, "1.6");
}

TEST(CheckHerds, SaysWhenNoStageIsKnown) {
    RawRanch raw = sound_ranch();
    raw.roles["herds"][0].fields.erase("stage");
    CHECKED_RANCH(checked, raw);
    EXPECT_EQ(checked.ranch.herds[0].stage, Stage::dry);
    EXPECT_PROBLEM(checked, "stage_missing", Severity::warning, "Cows");
    raw.roles["herds"][0].fields["calving_from"] = "03-10";
    CHECKED_RANCH(dated, raw);
    EXPECT_EQ(find_problem(dated, "stage_missing"), nullptr);
    EXPECT_TRUE(dated.ranch.herds[0].calving_from.given());
}

TEST(CheckHerds, NamesWithSemicolonsAreQuoted) {
    const std::vector<std::string> expected = {"a", "c;d", "Süd ö"};
    EXPECT_EQ(split_names(" a ;\"c;d\";; Süd ö"), expected);
}

TEST(NearestName, NeedsToBeCloseEnough) {
    const std::vector<std::string> known = {"Creek Meadow", "Home Flat"};
    EXPECT_EQ(nearest_name("creek medow", known), "Creek Meadow");
    EXPECT_EQ(nearest_name("Butte", known), "");
}

TEST(CheckHay, FillsUntestedHayByItsKind) {
    RawRanch raw = sound_ranch();
    raw.roles["hay"][0].fields.erase("cp_ratio");
    raw.roles["hay"][0].fields.erase("k_ratio");
    CHECKED_RANCH(checked, raw);
    const HayLot& lot = checked.ranch.lots[0];
    EXPECT_FALSE(lot.quality.tested);
    EXPECT_EQ(lot.quality.cp_ratio, 0.10);  // Alberta table, grass hay
    EXPECT_EQ(lot.quality.tdn_ratio, 0.55);
    EXPECT_EQ(lot.quality.k_ratio, 0.0132);
    EXPECT_PROBLEM(checked, "hay_not_tested", Severity::warning, "CP, K not tested");
}

TEST(CheckHay, WeighsBalesByTheirSize) {
    RawRanch raw = sound_ranch();
    raw.roles["hay"][0].fields.erase("bale_kg");
    raw.roles["hay"][0].fields["bale_size"] = "5x6";
    CHECKED_RANCH(checked, raw);
    // 141.4 ft3 at 11 lb/ft3 (Wisconsin extension's range 9 to 12).
    EXPECT_NEAR(checked.ranch.lots[0].bale_kg / units::kKgPerPound, 1555.0, 0.6);
    EXPECT_PROBLEM(checked, "bale_not_weighed", Severity::warning, "5x6");
    raw.roles["hay"][0].fields["bale_size"] = "big";
    CHECKED_RANCH(unread, raw);
    EXPECT_TRUE(unread.ranch.lots.empty());
    EXPECT_PROBLEM(unread, "bad_bale_size", Severity::error, "big");
}

TEST(CheckHay, DropsALotInAnUnknownYardWithAnError) {
    RawRanch raw = sound_ranch();
    raw.roles["hay"][0].fields["yard"] = "Stak yard";
    CHECKED_RANCH(checked, raw);
    EXPECT_TRUE(checked.ranch.lots.empty());
    EXPECT_PROBLEM(checked, "unknown_yard", Severity::error, "Stak yard");
    EXPECT_NE(find_problem(checked, "unknown_yard")->remedy.find("\"Stack yard\""),
              std::string::npos);
}

TEST(CheckHay, DropsNegativeCountsAndSaysWhenNothingIsLeft) {
    RawRanch raw = sound_ranch();
    raw.roles["hay"].push_back(raw.roles["hay"][0]);
    raw.roles["hay"][1].fields["lot"] = "Second";
    raw.roles["hay"][1].fields["bales"] = -40.0;
    CHECKED_RANCH(checked, raw);
    EXPECT_EQ(checked.ranch.lots.size(), 1U);
    EXPECT_PROBLEM(checked, "negative_number", Severity::error, "-40");
    EXPECT_EQ(find_problem(checked, "hay_none_on_hand"), nullptr);
    raw.roles["hay"][0].fields["bales"] = 0.0;
    CHECKED_RANCH(empty, raw);
    EXPECT_PROBLEM(empty, "hay_none_on_hand", Severity::warning, "hay");
}

TEST(CheckHay, KeepsHayOnlyForKnownHerdsAndPastures) {
    RawRanch raw = sound_ranch();
    raw.roles["hay"][0].fields["keep_to"] = "cows";
    CHECKED_RANCH(kept, raw);
    EXPECT_EQ(kept.ranch.lots[0].keep_to, "Cows");
    raw.roles["hay"][0].fields["keep_to"] = "Bulls";
    CHECKED_RANCH(unknown, raw);
    EXPECT_EQ(unknown.ranch.lots[0].keep_to, "");
    EXPECT_PROBLEM(unknown, "unknown_keep_to", Severity::warning, "Bulls");
}

// Lacombe study: 12 % left over unrolled, 19 % shredded, on snow.
TEST(CheckRigs, TakesWasteByMethodUnlessGiven) {
    RawRanch raw = sound_ranch();
    CHECKED_RANCH(unroll, raw);
    EXPECT_EQ(unroll.ranch.rigs[0].waste_ratio, 0.12);
    EXPECT_FALSE(unroll.ranch.rigs[0].waste_given);
    EXPECT_EQ(unroll.ranch.rigs[0].drift_downwind_m, 0.0);
    raw.roles["rigs"][0].fields["method"] = "shred";
    CHECKED_RANCH(shred, raw);
    EXPECT_EQ(shred.ranch.rigs[0].waste_ratio, 0.19);
    EXPECT_NEAR(shred.ranch.rigs[0].drift_downwind_m, 8.0 * units::kMetersPerFoot, 1e-12);
    raw.roles["rigs"][0].fields["waste_ratio"] = 0.05;
    CHECKED_RANCH(given, raw);
    EXPECT_EQ(given.ranch.rigs[0].waste_ratio, 0.05);
    EXPECT_TRUE(given.ranch.rigs[0].waste_given);
}

// Common practice, no source: at about 1.5 mph a shredding rig lays a 1,300 lb bale in 4 to 7
// minutes on 530 to 920 ft, 1.4 to 2.5 lb/ft; a peeled bale covers about 300 ft, some 4 lb/ft.
TEST(CheckRigs, UsualLayRatesAreThoseOfTheTrade) {
    RawRanch raw = sound_ranch();
    raw.roles["rigs"][0].fields["method"] = "shred";
    CHECKED_RANCH(shred, raw);
    const Rig& rig = shred.ranch.rigs[0];
    const double bale_kg = 1300.0 * units::kKgPerPound;
    const double longest_m = bale_kg / rig.lay_kg_per_m_min;
    const double shortest_m = bale_kg / rig.lay_kg_per_m_max;
    EXPECT_NEAR(rig.feed_m_per_s / units::kMetersPerSecondPerMph, 1.5, 0.01);
    EXPECT_NEAR(shortest_m / units::kMetersPerFoot, 530.0, 15.0);
    EXPECT_NEAR(longest_m / units::kMetersPerFoot, 920.0, 15.0);
    EXPECT_NEAR(shortest_m / rig.feed_m_per_s / 60.0, 4.0, 0.15);
    EXPECT_NEAR(longest_m / rig.feed_m_per_s / 60.0, 7.0, 0.15);
    raw.roles["rigs"][0].fields["method"] = "unroll";
    CHECKED_RANCH(unroll, raw);
    const double peeled_m = bale_kg / unroll.ranch.rigs[0].lay_kg_per_m_max;
    EXPECT_NEAR(peeled_m / units::kMetersPerFoot, 300.0, 30.0);
}

TEST(CheckRigs, NeedsItsRequiredCellsAndAKnownMethod) {
    for (const char* column :
         {"rig", "method", "bales_per_trip", "mass_kg", "pto_w", "turn_radius_m"}) {
        RawRanch raw = sound_ranch();
        raw.roles["rigs"][0].fields.erase(column);
        CHECKED_RANCH(checked, raw);
        EXPECT_TRUE(checked.ranch.rigs.empty());
        EXPECT_PROBLEM(checked, "missing_value", Severity::error, column);
    }
    RawRanch raw = sound_ranch();
    raw.roles["rigs"][0].fields["method"] = "pitchfork";
    CHECKED_RANCH(checked, raw);
    EXPECT_TRUE(checked.ranch.rigs.empty());
    EXPECT_PROBLEM(checked, "method_unknown", Severity::error, "Unroller");
}

TEST(CheckRigs, SwapsLayRatesAndDropsTheSecondOfOneName) {
    RawRanch raw = sound_ranch();
    raw.roles["rigs"][0].fields["lay_kg_per_m_min"] = 6.0;
    raw.roles["rigs"][0].fields["lay_kg_per_m_max"] = 2.0;
    raw.roles["rigs"].push_back(raw.roles["rigs"][0]);
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.rigs.size(), 1U);
    EXPECT_EQ(checked.ranch.rigs[0].lay_kg_per_m_min, 2.0);
    EXPECT_EQ(checked.ranch.rigs[0].lay_kg_per_m_max, 6.0);
    EXPECT_PROBLEM(checked, "least_above_most", Severity::warning, "Unroller");
    EXPECT_PROBLEM(checked, "duplicate_key", Severity::error, "Unroller");
}

TEST(CheckMoves, ResolvesThemAndDropsBadDates) {
    RawRanch raw = sound_ranch();
    const auto move = [](const char* herd, const char* date, const char* pasture) {
        return row({{"herd", herd}, {"date", date}, {"pasture", pasture}});
    };
    raw.roles["moves"] = {move("Cows", "2027-02-10", "North"), move("Cows", "2027-01-15", "South"),
                          move("Cows", "2027-02-30", "North"), move("Goats", "2027-01-16", "North"),
                          move("Cows", "2027-02-10", "South")};
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.moves.size(), 2U);
    EXPECT_EQ(checked.ranch.moves[0].pasture, PastureId::at(0));
    EXPECT_EQ(checked.ranch.moves[1].pasture, PastureId::at(1));
    EXPECT_PROBLEM(checked, "bad_date", Severity::error, "2027-02-30");
    EXPECT_PROBLEM(checked, "unknown_herd", Severity::error, "Goats");
    EXPECT_PROBLEM(checked, "duplicate_key", Severity::error, "2027-02-10");
}

TEST(CheckWeather, IsSortedWithOneRowADay) {
    RawRanch raw = sound_ranch();
    raw.roles["weather"] = {row({{"date", "2027-01-05"}, {"low_c", -5.0}, {"high_c", -12.0}}),
                            row({{"date", "2027-01-04"}, {"wet", "yes"}}),
                            row({{"date", "2027-01-05"}, {"low_c", -30.0}})};
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.weather.size(), 2U);
    EXPECT_TRUE(checked.ranch.weather[0].wet);
    EXPECT_EQ(checked.ranch.weather[1].low_c, -12.0);
    EXPECT_EQ(checked.ranch.weather[1].high_c, -5.0);
    EXPECT_PROBLEM(checked, "duplicate_key", Severity::error, "2027-01-05");
    EXPECT_PROBLEM(checked, "low_above_high", Severity::warning, "2027-01-05");
    EXPECT_FALSE(is_switched_off(checked, "cold, wind and thaw"));
}

TEST(CheckSoil, KeepsPointsAndZones) {
    RawRanch raw = sound_ranch();
    raw.roles["soil"] = {
        row({{"name", "A"}, {"date", "2024-10-01"}, {"p_ppm", 12.0}, {"method", "Olsen"}},
            Point{10, 10}),
        row({{"p_ppm", -3.0}}, square(100, 100, 50)), row({{"name", "C"}})};
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.soil.size(), 2U);
    EXPECT_TRUE(std::holds_alternative<Point>(checked.ranch.soil[0].where_taken));
    EXPECT_EQ(checked.ranch.soil[0].p_ppm, 12.0);
    EXPECT_TRUE(std::holds_alternative<MultiPolygon>(checked.ranch.soil[1].where_taken));
    EXPECT_EQ(checked.ranch.soil[1].p_ppm, std::nullopt);
    EXPECT_PROBLEM(checked, "wrong_geometry", Severity::error, "C");
}

TEST(CheckSettings, SetsNumbersInEitherUnitAndWords) {
    RawRanch raw = sound_ranch();
    const auto set = [](const char* key, const char* value) {
        return row({{"key", key}, {"value", value}});
    };
    raw.roles["settings"] = {set("spacing_ft", "50"),       set("fuel_price_per_l", "1.25"),
                             set("season_start", "09-01"),  set("turnout", "2027-05-15"),
                             set("objective_measure", "N"), set("time_zone", "America/Denver"),
                             set("carry_until", "8:45"),    set("split_bales", "Yes"),
                             set("slope_limit_pct", "")};
    CHECKED_RANCH(checked, raw);
    // What is not done yet is said, and nothing else.
    ASSERT_EQ(checked.problems.size(), 1U);
    EXPECT_PROBLEM(checked, "split_bales_not_used", Severity::warning, "whole bales");
    const Settings& s = checked.ranch.settings;
    EXPECT_NEAR(s.spacing_m, 15.24, 1e-12);
    EXPECT_NEAR(s.fuel_price_per_m3.value_or(0.0), 1250.0, 1e-9);
    EXPECT_EQ(s.season_start, std::chrono::September / 1);
    EXPECT_EQ(s.turnout, sys_days(std::chrono::year(2027) / 5 / 15));
    EXPECT_EQ(s.objective_measure, "n");
    EXPECT_EQ(s.slope_limit_ratio, 0.12);
    EXPECT_EQ(s.carry_until, std::chrono::minutes{8 * 60 + 45});
    EXPECT_TRUE(s.split_bales);
    const std::vector<std::string> changed = {"spacing_m",   "fuel_price_per_gal", "season_start",
                                              "turnout",     "objective_measure",  "time_zone",
                                              "carry_until", "split_bales"};
    EXPECT_EQ(checked.ranch.settings_changed, changed);
    EXPECT_FALSE(is_switched_off(checked, "cost"));
}

TEST(CheckSettings, LeavesOutWhatMakesNoSense) {
    RawRanch raw = sound_ranch();
    const auto set = [](const char* key, const char* value) {
        return row({{"key", key}, {"value", value}});
    };
    raw.roles["settings"] = {set("spacng_m", "12"),       set("spacing_m", "wide"),
                             set("cell_m", "-3"),         set("cold_cap_pct", "900"),
                             set("units", "old"),         set("turnout", "15 May"),
                             set("gate_min", "2"),        set("gate_min", "4"),
                             set("carry_until", "25:00"), set("split_bales", "maybe")};
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "unknown_setting", Severity::error, "spacng_m");
    EXPECT_NE(find_problem(checked, "unknown_setting")->remedy.find("\"spacing_m\""),
              std::string::npos);
    EXPECT_PROBLEM(checked, "not_a_number", Severity::error, "wide");
    EXPECT_PROBLEM(checked, "negative_number", Severity::error, "cell_m");
    EXPECT_PROBLEM(checked, "number_out_of_range", Severity::error, "cold_cap_pct");
    EXPECT_PROBLEM(checked, "unknown_enum_value", Severity::error, "old");
    EXPECT_PROBLEM(checked, "bad_date", Severity::error, "15 May");
    EXPECT_PROBLEM(checked, "bad_time", Severity::error, "25:00");
    EXPECT_EQ(std::count_if(checked.problems.begin(), checked.problems.end(),
                            [](const Problem& p) { return p.code == "unknown_enum_value"; }),
              2);
    EXPECT_FALSE(checked.ranch.settings.split_bales);
    EXPECT_PROBLEM(checked, "duplicate_key", Severity::warning, "gate_min");
    EXPECT_EQ(checked.ranch.settings.cell_m, 3.0);
    EXPECT_EQ(checked.ranch.settings.gate_s, 240.0);
}

// The book's own setting is known, and its number looked at.
TEST(CheckSettings, KnowsHowManyCopiesAreKept) {
    RawRanch raw = sound_ranch();
    raw.roles["settings"] = {row({{"key", "copies_kept"}, {"value", "3"}})};
    CHECKED_RANCH(sound, raw);
    EXPECT_EQ(find_problem(sound, "unknown_setting"), nullptr);
    EXPECT_EQ(find_problem(sound, "number_out_of_range"), nullptr);
    for (const char* odd : {"-1", "1001", "few", "2.5"}) {
        raw.roles["settings"] = {row({{"key", "copies_kept"}, {"value", odd}})};
        CHECKED_RANCH(checked, raw);
        EXPECT_PROBLEM(checked, "number_out_of_range", Severity::error, odd);
    }
}

TEST(CheckSettings, ScalesSharesToAWhole) {
    RawRanch raw = sound_ranch();
    raw.roles["settings"] = {row({{"key", "share_line_pct"}, {"value", "85"}})};
    CHECKED_RANCH(checked, raw);
    const Settings& s = checked.ranch.settings;
    EXPECT_NEAR(s.share_line_ratio, 0.85 / 1.5, 1e-12);
    EXPECT_NEAR(
        s.share_line_ratio + s.share_water_ratio + s.share_shelter_ratio + s.share_rest_ratio, 1.0,
        1e-12);
    EXPECT_PROBLEM(checked, "shares_do_not_add_up", Severity::warning, "150");
}

}  // namespace
}  // namespace haylane::testing
