// Checks against NIST Handbook 44 Appendix C and NIST SP 811 (exact definitions, from memory).
#include "core/base/units.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane::units {
namespace {

TEST(Units, FollowTheirDefinitions) {
    EXPECT_DOUBLE_EQ(kMetersPerFoot * 3.0, kMetersPerYard);
    EXPECT_DOUBLE_EQ(kMetersPerInch * 12.0, kMetersPerFoot);
    EXPECT_DOUBLE_EQ(kMetersPerFoot * 5280.0, kMetersPerMile);
    EXPECT_NEAR(kM2PerAcre, 43560.0 * 0.3048 * 0.3048, 1e-9);
    EXPECT_DOUBLE_EQ(kKgPerPound * 2000.0, kKgPerShortTon);
    EXPECT_DOUBLE_EQ(kKgPerOunce, 0.028349523125);
    EXPECT_NEAR(kLitersPerGallon, 231.0 * 2.54 * 2.54 * 2.54 / 1000.0, 1e-12);  // 231 cubic inches
    EXPECT_NEAR(kNewtonsPerPoundForce, 0.45359237 * 9.80665, 1e-13);
    // Mechanical horsepower: 550 foot pounds-force a second.
    EXPECT_NEAR(kWattsPerHorsepower, 550.0 * 0.3048 * 0.45359237 * 9.80665, 1e-9);
    EXPECT_DOUBLE_EQ(kMetersPerSecondPerMph, 1609.344 / 3600.0);
    EXPECT_DOUBLE_EQ(kMetersPerSecondPerKmh * 3.6, 1.0);
    EXPECT_DOUBLE_EQ(kPi, std::acos(-1.0));
}

TEST(Units, TemperaturesAndAngles) {
    EXPECT_DOUBLE_EQ(c_from_f(32.0), 0.0);
    EXPECT_DOUBLE_EQ(c_from_f(212.0), 100.0);
    EXPECT_DOUBLE_EQ(c_from_f(-40.0), -40.0);
    EXPECT_DOUBLE_EQ(f_from_c(c_from_f(17.3)), 17.3);
    EXPECT_DOUBLE_EQ(rad_from_deg(180.0), kPi);
    EXPECT_DOUBLE_EQ(deg_from_rad(rad_from_deg(33.0)), 33.0);
}

TEST(Units, PoundsAnAcre) {
    // 1 lb/ac = 1.12085 kg/ha (USDA tables).
    EXPECT_NEAR(lb_per_ac_from_kg_per_m2(1.12085 / kM2PerHectare), 1.0, 1e-5);
}

}  // namespace
}  // namespace haylane::units
