// Checks against NDSU's worked example of cold stress and the extension critical temperatures.
#include "core/ration/cold.h"

#include "core/base/units.h"

#include <chrono>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using std::chrono::days;
using units::c_from_f;

const sys_days kJanuary = *parse_day("2027-01-11");

WeatherDay weather_f(sys_days date, double low_f, double high_f, double wind_mph = 0.0) {
    return {.date = date,
            .wind_from_rad = std::nullopt,
            .wind_m_per_s = wind_mph * units::kMetersPerSecondPerMph,
            .low_c = c_from_f(low_f),
            .high_c = c_from_f(high_f)};
}

// NDSU: 25 F with a wind of 20 mph is 4 F for cattle.
TEST(Cold, WindTakes21DegreesAt20Mph) {
    const auto effective = effective_temperature_c(weather_f(kJanuary, 15, 35, 20), false);
    ASSERT_TRUE(effective);
    EXPECT_NEAR(units::f_from_c(*effective), 4.0, 1e-9);
    const auto sheltered = effective_temperature_c(weather_f(kJanuary, 15, 35, 20), true);
    ASSERT_TRUE(sheltered);
    EXPECT_NEAR(units::f_from_c(*sheltered), 25.0 - 0.3 * 21.0, 1e-9);
}

// NDSU: 1,300 lb cow, 12.7 lb TDN; effective 4 F, critical 18 F: +14 %, 14.48 lb, 3.2 lb more hay
// DM.
TEST(Cold, FourteenDegreesBelowCriticalTakeFourteenPercentMoreTdn) {
    const double rise = cold_rise_ratio(c_from_f(4), c_from_f(18));
    EXPECT_NEAR(rise, 0.14, 1e-12);
    EXPECT_NEAR(12.7 * (1.0 + rise), 14.48, 0.005);
    EXPECT_NEAR(12.7 * rise, 1.78, 0.005);
    EXPECT_NEAR(12.7 * rise / 0.56, 3.2, 0.05);
}

TEST(Cold, NoRiseAboveCritical) { EXPECT_EQ(cold_rise_ratio(c_from_f(30), c_from_f(18)), 0.0); }

// NDSU, SDSU and others: 18 F dry heavy coat, 32 F dry winter coat, 59 F wet.
TEST(Cold, CriticalTemperatureFollowsCoat) {
    const Settings settings;
    EXPECT_NEAR(critical_temperature_c(settings, kJanuary, false), c_from_f(18), 1e-9);
    EXPECT_NEAR(critical_temperature_c(settings, kJanuary, true), c_from_f(59), 1e-9);
    const sys_days last_early = *parse_day("2026-11-30");
    EXPECT_NEAR(critical_temperature_c(settings, last_early, false), c_from_f(32), 1e-9);
    EXPECT_NEAR(critical_temperature_c(settings, last_early + days(1), false), c_from_f(18), 1e-9);
}

// Model rule: with the low alone the mean is 6 C above it.
TEST(Cold, OneTemperatureStandsForTheDay) {
    WeatherDay weather{.date = kJanuary, .low_c = -20.0};
    EXPECT_NEAR(effective_temperature_c(weather, false).value(), -14.0, 1e-12);
    weather = {.date = kJanuary, .high_c = -2.0};
    EXPECT_NEAR(effective_temperature_c(weather, false).value(), -8.0, 1e-12);
    EXPECT_FALSE(effective_temperature_c({.date = kJanuary}, false).has_value());
}

TEST(Cold, NeedIsTheMeanOfTodayAndTomorrow) {
    Ranch ranch;
    EXPECT_FALSE(cold_need_ratio(ranch, kJanuary, false).has_value());
    ranch.weather = {weather_f(kJanuary, 0, 8), weather_f(kJanuary + days(1), 20, 40)};
    EXPECT_NEAR(cold_need_ratio(ranch, kJanuary, false).value(), 0.07, 1e-12);
    EXPECT_NEAR(cold_need_ratio(ranch, kJanuary + days(1), false).value(), 0.0, 1e-12);
    EXPECT_NEAR(cold_need_ratio(ranch, kJanuary - days(1), false).value(), 0.14, 1e-12);
}

}  // namespace
}  // namespace haylane
