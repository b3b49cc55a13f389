// Bale mass against Wisconsin's and Texas A&M's worked bales and the volumes of round bales; hay by
// kind against the published rows named beside each check.
#include "core/ranch/hay_tables.h"

#include "core/base/units.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

double pounds(std::string_view size, HayKind kind = HayKind::grass, double dm_ratio = 0.88) {
    const auto parsed = parse_bale_size(size);
    return parsed ? bale_kg(*parsed, kind, dm_ratio) / units::kKgPerPound : -1.0;
}

// Volumes 78.5, 62.8, 98.2, 141.4 ft3 times 11 lb/ft3 (Wisconsin extension's 9 to 12).
TEST(BaleMass, IsVolumeTimesElevenPounds) {
    EXPECT_NEAR(pounds("4x5"), 864.0, 0.6);
    EXPECT_NEAR(pounds("5x4"), 691.0, 0.6);
    EXPECT_NEAR(pounds("5x5"), 1080.0, 0.6);
    EXPECT_NEAR(pounds("5x6"), 1555.0, 0.6);
}

// Texas A&M E-319: at one density a 5x6 is 144 % of a 5x5, a 4x4 is 51 %; its own 5x5 of 1,100 lb
// (11.2 lb/ft3) is within 2 % of ours.
TEST(BaleMass, ScalesAsTexasExtensionSays) {
    EXPECT_NEAR(pounds("5x6") / pounds("5x5"), 1.44, 1e-9);
    EXPECT_NEAR(pounds("4x4") / pounds("5x5"), 0.512, 1e-9);
    EXPECT_NEAR(pounds("5x5"), 1100.0, 0.02 * 1100.0);
}

// Baleage of 50 % moisture at 10 to 12 lb DM/ft3: a 5x5 is 1,963 to 2,356 lb.
TEST(BaleMass, CountsDryMatterForBaleage) {
    const double mass_lb = pounds("5x5", HayKind::baleage, 0.5);
    EXPECT_GT(mass_lb, 1963.0);
    EXPECT_LT(mass_lb, 2356.0);
}

TEST(BaleSize, ReadsTheUsualSpellingsOnly) {
    EXPECT_GT(pounds(" 5 x 6 "), 0.0);
    EXPECT_GT(pounds("5X6"), 0.0);
    EXPECT_GT(pounds("5\u00d76"), 0.0);
    EXPECT_GT(pounds("4.5x5.5"), 0.0);
    for (const std::string_view bad : {"", "5", "5x", "x6", "5x6x7", "5 by 6", "1x6", "5x60"}) {
        EXPECT_FALSE(parse_bale_size(bad).has_value()) << bad;
    }
}

TEST(TableHay, FollowsThePublishedRows) {
    // Alberta table, grass hay: 35 lb N, 4 lb P, 29 lb K a tonne of DM; N = CP / 6.25.
    const double lb_per_tonne = units::kKgPerPound / 1000.0;
    const TableHay grass = table_hay(HayKind::grass);
    EXPECT_NEAR(grass.quality.cp_ratio / 6.25, 35.0 * lb_per_tonne, 2e-4);
    EXPECT_NEAR(grass.quality.p_ratio, 4.0 * lb_per_tonne, 5e-5);
    EXPECT_NEAR(grass.quality.k_ratio, 29.0 * lb_per_tonne, 5e-5);
    // Saskatchewan brome hay, TDN 60 %; alfalfa-grass hay, CP 14.0 %, TDN 61 %.
    EXPECT_EQ(grass.quality.tdn_ratio, 0.60);
    EXPECT_EQ(table_hay(HayKind::baleage).quality.cp_ratio, 0.14);
    EXPECT_EQ(table_hay(HayKind::baleage).quality.tdn_ratio, 0.61);
    // NDSU barley straw: DM 90, CP 4.1, TDN 43, P 0.11 %.
    const TableHay straw = table_hay(HayKind::straw);
    EXPECT_EQ(straw.dm_ratio, 0.90);
    EXPECT_EQ(straw.quality.cp_ratio, 0.041);
    EXPECT_EQ(straw.quality.tdn_ratio, 0.43);
    EXPECT_EQ(straw.quality.p_ratio, 0.0011);
    // Feed tables, from memory: native (prairie) hay 7, 50, 0.15, 1.0; alfalfa mid bloom 17, 58.
    EXPECT_EQ(table_hay(HayKind::native).quality.cp_ratio, 0.07);
    EXPECT_EQ(table_hay(HayKind::native).quality.k_ratio, 0.010);
    EXPECT_EQ(table_hay(HayKind::alfalfa).quality.tdn_ratio, 0.58);
    EXPECT_EQ(table_hay(HayKind::other).quality.cp_ratio, 0.07);
}

}  // namespace
}  // namespace haylane
