// Past feedings: names, places, dates and usual values, by hand on the two-square ranch.
#include "core/base/units.h"
#include "tests/ranch/raw_maker.h"

#include <gtest/gtest.h>

namespace haylane::testing {
namespace {

RawRow feeding(decltype(RawRow::shape) shape = {}) {
    return row({{"date", "2026-01-10"},
                {"herd", "Cows"},
                {"pasture", "South"},
                {"lot", "Grass"},
                {"bales", 4.0},
                {"rig", "Unroller"},
                {"source", "gps"}},
               std::move(shape));
}

RawRanch with(std::vector<RawRow> feedings) {
    RawRanch raw = sound_ranch();
    raw.roles["feedings"] = std::move(feedings);
    return raw;
}

TEST(CheckFeedings, ResolvesEveryName) {
    CHECKED_RANCH(checked, with({feeding(MultiPolyline{{{50, 50}, {350, 50}}})}));
    EXPECT_TRUE(checked.problems.empty());
    ASSERT_EQ(checked.ranch.feedings.size(), 1U);
    const FeedingRecord& record = checked.ranch.feedings[0];
    EXPECT_EQ(record.from, sys_days(std::chrono::year(2026) / 1 / 10));
    EXPECT_EQ(record.to, record.from);
    EXPECT_EQ(record.herd, HerdId::at(0));
    EXPECT_EQ(record.pasture, PastureId::at(0));
    EXPECT_EQ(record.lot, LotId::at(0));
    EXPECT_EQ(record.rig, RigId::at(0));
    EXPECT_EQ(record.source, Source::gps);
    EXPECT_NEAR(record.bale_dm_kg, 567.0 * 0.88, 1e-9);
    EXPECT_EQ(record.quality.cp_ratio, 0.09);
    EXPECT_EQ(record.waste_ratio, 0.12);
    EXPECT_NEAR(record.intake_kg_per_head_day, 590.0 * 0.020, 1e-9);  // 2.0 % of weight, dry
    EXPECT_TRUE(std::holds_alternative<MultiPolyline>(record.shape));
    EXPECT_FALSE(is_switched_off(checked, "history"));
}

TEST(CheckFeedings, KeepsOldNamesWithOneProblemEach) {
    RawRow old = feeding();
    old.fields["herd"] = "Sold cows";
    old.fields["lot"] = "Fed up";
    old.fields["rig"] = "Old rig";
    CHECKED_RANCH(checked, with({old, old, feeding()}));
    ASSERT_EQ(checked.ranch.feedings.size(), 3U);
    EXPECT_EQ(checked.ranch.feedings[0].herd, std::nullopt);
    EXPECT_EQ(checked.ranch.feedings[0].waste_ratio, 0.12);
    EXPECT_EQ(checked.ranch.feedings[0].intake_kg_per_head_day, 11.0);
    EXPECT_NEAR(checked.ranch.feedings[0].bale_dm_kg, 567.0 * 0.88, 1e-9);  // mean of the lots
    EXPECT_EQ(checked.problems.size(), 3U);
    EXPECT_PROBLEM(checked, "unknown_herd", Severity::warning, "2 past feedings");
    EXPECT_PROBLEM(checked, "unknown_lot", Severity::warning, "Fed up");
    EXPECT_PROBLEM(checked, "unknown_rig", Severity::warning, "Old rig");
}

TEST(CheckFeedings, TellsOnceOfFeedingsWithoutALot) {
    RawRow plain = feeding();
    plain.fields.erase("lot");
    RawRanch raw = with({plain, plain});
    raw.roles.erase("hay");
    CHECKED_RANCH(checked, raw);
    EXPECT_EQ(checked.problems.size(), 1U);
    EXPECT_PROBLEM(checked, "feeding_without_lot", Severity::info, "2 past feedings");
    // A 5 x 6 ft bale of 1,555 lb as fed, 91 % dry matter.
    EXPECT_NEAR(checked.ranch.feedings[0].bale_dm_kg / units::kKgPerPound, 1555.0 * 0.91, 1.0);
}

TEST(CheckFeedings, FindsThePastureByPlace) {
    RawRow nameless = feeding(MultiPolyline{{{50, 500}, {350, 500}}});
    nameless.fields.erase("pasture");
    RawRow renamed = feeding(std::vector<Point>{{100, 600}});
    renamed.fields["pasture"] = "Old name";
    RawRow lost = feeding();
    lost.fields["pasture"] = "Old name";
    CHECKED_RANCH(checked, with({nameless, renamed, lost}));
    ASSERT_EQ(checked.ranch.feedings.size(), 2U);
    EXPECT_EQ(checked.ranch.feedings[0].pasture, PastureId::at(1));
    EXPECT_EQ(checked.ranch.feedings[1].pasture, PastureId::at(1));
    EXPECT_PROBLEM(checked, "unknown_pasture", Severity::error, "Old name");
}

TEST(CheckFeedings, KeepsWhatLiesPartlyOutsideAndSaysHowMuch) {
    const decltype(RawRow::shape) shapes[] = {MultiPolyline{{{300, 50}, {500, 50}}},
                                              square(350, 100, 100),
                                              std::vector<Point>{{100, 100}, {900, 100}}};
    for (const auto& shape : shapes) {
        CHECKED_RANCH(checked, with({feeding(shape)}));
        ASSERT_EQ(checked.ranch.feedings.size(), 1U);
        EXPECT_PROBLEM(checked, "feeding_outside_pasture", Severity::warning, "50 %");
    }
}

TEST(CheckFeedings, ReadsRangesOfDates) {
    RawRow range = feeding();
    range.fields.erase("date");
    range.fields["date_from"] = "2026-01-01";
    range.fields["date_to"] = "2026-01-09";
    CHECKED_RANCH(checked, with({range}));
    ASSERT_EQ(checked.ranch.feedings.size(), 1U);
    EXPECT_EQ(checked.ranch.feedings[0].to - checked.ranch.feedings[0].from, std::chrono::days(8));
    range.fields["date_to"] = "2025-01-09";
    CHECKED_RANCH(reversed, with({range}));
    EXPECT_TRUE(reversed.ranch.feedings.empty());
    EXPECT_PROBLEM(reversed, "dates_reversed", Severity::error, "2025-01-09");
}

TEST(CheckFeedings, NeedsADateAndBales) {
    RawRow undated = feeding();
    undated.fields["date"] = "last week";
    RawRow uncounted = feeding();
    uncounted.fields.erase("bales");
    CHECKED_RANCH(checked, with({undated, uncounted}));
    EXPECT_TRUE(checked.ranch.feedings.empty());
    EXPECT_PROBLEM(checked, "bad_date", Severity::error, "last week");
    EXPECT_PROBLEM(checked, "missing_value", Severity::error, "bales");
}

// Lacombe 12 % unrolled, Buskirk and others 2003 6.1 % in a ring.
TEST(CheckFeedings, TakesRingWasteForHerdsFedInRings) {
    RawRow plain = feeding();
    plain.fields.erase("rig");
    RawRanch raw = with({plain});
    raw.roles["herds"][0].fields["fed_in"] = "ring";
    CHECKED_RANCH(checked, raw);
    EXPECT_EQ(checked.ranch.feedings[0].waste_ratio, 0.061);
}

// A rig brings bales to rings too; what lies along a line was laid by it.
TEST(CheckFeedings, ARigLeavesRingWasteUnlessItLaidALine) {
    RawRow in_rings = feeding();
    in_rings.shape = std::vector<Point>{{100.0, 100.0}, {130.0, 100.0}};
    RawRow along_a_line = feeding();
    along_a_line.shape = MultiPolyline{{{100.0, 100.0}, {130.0, 100.0}}};
    RawRanch raw = with({in_rings, along_a_line});
    raw.roles["herds"][0].fields["fed_in"] = "ring";
    CHECKED_RANCH(checked, raw);
    ASSERT_EQ(checked.ranch.feedings.size(), 2U);
    ASSERT_TRUE(checked.ranch.feedings[0].rig);
    EXPECT_EQ(checked.ranch.feedings[0].waste_ratio, 0.061);
    EXPECT_EQ(checked.ranch.feedings[1].waste_ratio,
              checked.ranch[*checked.ranch.feedings[1].rig].waste_ratio);
}

}  // namespace
}  // namespace haylane::testing
