// Checks against worked examples: waste by method (Lacombe trial; Buskirk 2003; Bell and Martz
// 1973), as-fed weight, NDSU cold example; and hand-worked amounts of the model page's rule.
#include "core/ration/bales_needed.h"

#include "core/base/units.h"
#include "core/ration/cold.h"

#include <array>
#include <chrono>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using std::chrono::days;
using units::c_from_f;

constexpr double kLb = units::kKgPerPound;
const sys_days kFirst = *parse_day("2027-01-11");
const HerdId kHerd = HerdId::at(0);

Ranch one_herd(int head, double weight_kg, Stage stage) {
    Ranch ranch;
    Herd herd;
    herd.head = head;
    herd.weight_kg = weight_kg;
    herd.stage = stage;
    ranch.herds.push_back(herd);
    return ranch;
}

WeatherDay weather_f(sys_days date, double mean_f) {
    return {.date = date, .low_c = c_from_f(mean_f - 5), .high_c = c_from_f(mean_f + 5)};
}

// A cow that must eat 26 lb is fed 29.5 unrolled, 32.1 shredded, 27.7 in a ring, 47.3 with no rack.
TEST(FeedNeed, OffersWhatIsEatenAndWasted) {
    struct Row {
        double waste, offered_lb;
    };
    constexpr std::array kRows{Row{0.12, 29.5}, Row{0.19, 32.1}, Row{0.06, 27.7}, Row{0.45, 47.3}};
    const Ranch ranch = one_herd(1, 1300 * kLb, Stage::dry);  // 2.0 % of 1,300 lb = 26 lb
    for (const Row& row : kRows) {
        const FeedNeed need = feed_need(ranch, kHerd, kFirst, 1, row.waste, false, 400);
        EXPECT_NEAR(need.eaten_kg / kLb, 26.0, 1e-9);
        EXPECT_NEAR(need.offered_kg / kLb, row.offered_lb, 0.05);
    }
}

// 1,200 lb cow, 2.0 % = 24 lb DM; as 88 % DM hay 27 lb as fed (The Cattle Site).
TEST(FeedNeed, TwentyFourPoundsDryAre27AsFed) {
    const Ranch ranch = one_herd(1, 1200 * kLb, Stage::mid_gestation);
    const FeedNeed need = feed_need(ranch, kHerd, kFirst, 1, 0.0, false, 400);
    HayLot lot;
    lot.bale_kg = 1.0;
    lot.dm_ratio = 0.88;
    EXPECT_NEAR(need.offered_kg / lot.bale_dm_kg() / kLb, 27.0, 0.5);
    EXPECT_NEAR(need.offered_kg / kLb, 24.0, 1e-9);
}

TEST(FeedNeed, SumsOverDaysAndStages) {
    Ranch ranch = one_herd(100, 600, Stage::other);
    ranch.herds[0].calving_from = parse_date_mark("2027-01-12").value();
    const FeedNeed need = feed_need(ranch, kHerd, kFirst, 3, 0.12, false, 400);
    EXPECT_NEAR(need.eaten_kg, 100 * 600 * (0.020 + 2 * 0.024), 1e-9);
    EXPECT_NEAR(need.intake_kg_per_head_day, 600 * 0.068 / 3, 1e-12);
    EXPECT_EQ(need.table_offered_kg, need.offered_kg);
    EXPECT_TRUE(need.modelled);
    EXPECT_FALSE(need.bales);
}

// 14 F below the critical 18 F on both days: 14 % more.
TEST(FeedNeed, ColdRaisesHay) {
    Ranch ranch = one_herd(100, 600, Stage::dry);
    ranch.weather = {weather_f(kFirst, 4), weather_f(kFirst + days(1), 4)};
    const FeedNeed need = feed_need(ranch, kHerd, kFirst, 1, 0.12, false, 400);
    EXPECT_NEAR(need.eaten_kg, 1200 * 1.14, 1e-9);
    EXPECT_NEAR(need.energy_short_ratio, 0.0, 1e-12);
}

// 48 F below: 20 % more hay, 28 % left short.
TEST(FeedNeed, ColdStopsAtTheCapAndSaysWhatIsShort) {
    Ranch ranch = one_herd(100, 600, Stage::dry);
    ranch.weather = {weather_f(kFirst, -30), weather_f(kFirst + days(1), -30)};
    const FeedNeed need = feed_need(ranch, kHerd, kFirst, 1, 0.12, false, 400);
    EXPECT_NEAR(need.eaten_kg, 1200 * 1.20, 1e-9);
    EXPECT_NEAR(need.energy_short_ratio, 0.28, 1e-12);
}

TEST(FeedNeed, BalesADayWinOverTablesAndCold) {
    Ranch ranch = one_herd(100, 600, Stage::dry);
    ranch.herds[0].bales_per_day = 3.5;
    ranch.weather = {weather_f(kFirst, -30)};
    const FeedNeed need = feed_need(ranch, kHerd, kFirst, 2, 0.12, false, 400);
    EXPECT_DOUBLE_EQ(need.bales.value(), 7.0);
    EXPECT_DOUBLE_EQ(need.offered_kg, 2800.0);
    EXPECT_NEAR(need.eaten_kg, 2800 * 0.88, 1e-9);
    EXPECT_NEAR(need.intake_kg_per_head_day, 2800 * 0.88 / 200, 1e-9);
    EXPECT_EQ(need.energy_short_ratio, 0.0);
    EXPECT_NEAR(need.table_offered_kg, 1200 * (1.20 + 1.00) / 0.88, 1e-9);
}

TEST(FeedNeed, SaysWhereTheTablesDoNotReach) {
    Ranch ranch = one_herd(4, 900, Stage::bull);
    EXPECT_FALSE(feed_need(ranch, kHerd, kFirst, 1, 0.12, false, 400).modelled);
    ranch.herds[0].intake_ratio = 0.022;
    const FeedNeed own = feed_need(ranch, kHerd, kFirst, 1, 0.12, false, 400);
    EXPECT_TRUE(own.modelled);
    EXPECT_NEAR(own.eaten_kg, 4 * 900 * 0.022, 1e-9);
    ranch.herds[0].intake_ratio.reset();
    ranch.herds[0].bales_per_day = 0.1;
    EXPECT_TRUE(feed_need(ranch, kHerd, kFirst, 1, 0.12, false, 400).modelled);
}

TEST(FeedNeed, AnEmptyHerdNeedsNothing) {
    const Ranch ranch = one_herd(0, 600, Stage::dry);
    const FeedNeed need = feed_need(ranch, kHerd, kFirst, 1, 0.12, false, 400);
    EXPECT_EQ(need.offered_kg, 0.0);
    EXPECT_EQ(need.intake_kg_per_head_day, 0.0);
}

}  // namespace
}  // namespace haylane
