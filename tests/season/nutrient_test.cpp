// Worked examples of published sources on release, price and removal; each names its own.
#include "core/base/units.h"
#include "core/season/fertilizer_worth.h"
#include "core/season/ground_advice.h"
#include "core/season/nutrient_release.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using units::kKgPerPound;
using units::kKgPerShortTon;

double dollars_a_lb(double per_kg) { return per_kg * kKgPerPound; }
double a_ton(double dollars) { return dollars / kKgPerShortTon; }

// Cornell University, CSS 412, fractions for wet manure: 50 lb organic N/ac in each of three years
// supply 17.5 + 6.0 + 2.5 = 26 lb in the third.
TEST(NutrientRelease, AddsUpAsCornells) {
    const double brought[] = {50.0, 50.0, 50.0};
    EXPECT_DOUBLE_EQ(released_in_year(brought, kDungRelease, 0), 17.5);
    EXPECT_DOUBLE_EQ(released_in_year(brought, kDungRelease, 1), 17.5 + 6.0);
    EXPECT_DOUBLE_EQ(released_in_year(brought, kDungRelease, 2), 26.0);
    EXPECT_DOUBLE_EQ(released_in_year(brought, kDungRelease, 3), 8.5);
    EXPECT_DOUBLE_EQ(released_in_year(brought, kDungRelease, 5), 0.0);
}

TEST(NutrientRelease, CountsEachPoolByItsOwnFractions) {
    std::vector<Ledger> seasons(2);
    seasons[0].dung_n_kg = 100.0;
    seasons[1].dung_n_kg = 10.0;
    seasons[1].residue_n_kg = 20.0;
    seasons[1].urine_n_kg = 50.0;
    const auto n = available_n_kg(seasons);
    EXPECT_DOUBLE_EQ(n[0], 12.0 + 3.5 + 0.25 * 20.0 + 0.36 * 50.0);
    EXPECT_DOUBLE_EQ(n[1], 5.0 + 1.2 + 0.12 * 20.0);
    EXPECT_DOUBLE_EQ(n[2], 0.5 + 0.05 * 20.0);
    EXPECT_EQ(available_n_kg({})[0], 0.0);
}

// University of Wisconsin: urea at $700 a ton is $0.76 a lb of N, UAN 28 % at $600 is $1.07.
TEST(FertilizerWorth, PricesNitrogenAsWisconsin) {
    EXPECT_NEAR(dollars_a_lb(nutrient_price_per_kg(a_ton(700.0), 0.46)), 0.76, 0.005);
    EXPECT_NEAR(dollars_a_lb(nutrient_price_per_kg(a_ton(600.0), 0.28)), 1.07, 0.005);
}

// The rule of New Mexico State University, Guide A-133, with made-up prices: urea 600, DAP 650, MAP
// 700, potash 450: N 0.6522; P2O5 0.4513 by DAP, 0.5351 by MAP; K2O 0.3750. A ton of hay of 40, 13
// and 50 lb is worth $50.70, of which plants get $30.06 (Missouri's 35, 85, 85 %).
TEST(FertilizerWorth, TakesNitrogensWorthOffTwoNutrientProducts) {
    const double n = nutrient_price_per_kg(a_ton(600.0), 0.46);
    const double by_dap = second_price_per_kg(a_ton(650.0), 0.18, n, 0.46);
    const double by_map = second_price_per_kg(a_ton(700.0), 0.11, n, 0.52);
    const double k = nutrient_price_per_kg(a_ton(450.0), 0.60);
    EXPECT_NEAR(dollars_a_lb(n), 0.6522, 5e-5);
    EXPECT_NEAR(dollars_a_lb(by_dap), 0.4513, 5e-5);
    EXPECT_NEAR(dollars_a_lb(by_map), 0.5351, 5e-5);
    EXPECT_NEAR(dollars_a_lb(k), 0.3750, 5e-5);
    EXPECT_EQ(second_price_per_kg(a_ton(10.0), 0.18, n, 0.46), 0.0);
    Settings settings;
    const Nutrients ton{40.0 * kKgPerPound, 13.0 * kKgPerPound, 50.0 * kKgPerPound};
    EXPECT_FALSE(fertilizer_worth(ton, settings));
    settings.price_n_per_kg = n;
    settings.price_p2o5_per_kg = by_dap;
    settings.price_k2o_per_kg = k;
    const auto worth = fertilizer_worth(ton, settings);
    ASSERT_TRUE(worth);
    EXPECT_NEAR(worth->full, 50.70, 0.005);
    EXPECT_NEAR(worth->available, 30.06, 0.005);
}

// Ohio State extension: 3 tons of hay an acre remove 39 lb P2O5 and 150 lb K2O. 25 bales of 1,131
// lb DM at 0.18 % P bring 117 lb P2O5/ac: three years of that.
TEST(GroundAdvice, CountsYearsOfHayAsOhio) {
    const double hay_kg = 3.0 * kKgPerShortTon;
    EXPECT_NEAR(kP2o5PerHay * hay_kg / kKgPerPound, 39.0, 1e-9);
    EXPECT_NEAR(kK2oPerHay * hay_kg / kKgPerPound, 150.0, 1e-9);
    const double p2o5_lb = 25.0 * 1131.0 * 0.0018 * kP2o5PerP;
    EXPECT_NEAR(p2o5_lb, 117.0, 0.5);
    EXPECT_NEAR(years_of_hay(p2o5_lb * kKgPerPound / units::kM2PerAcre), 3.0, 0.02);
}

}  // namespace
}  // namespace haylane
