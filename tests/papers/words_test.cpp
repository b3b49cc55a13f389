// Numbers in words against hand-worked conversions (NIST Handbook 44 factors) and the calendar.

#include "app/papers/words.h"

#include "core/base/units.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using std::chrono::year;

sys_days day(int y, unsigned m, unsigned d) {
    return sys_days{year{y} / std::chrono::month{m} / std::chrono::day{d}};
}

TEST(Words, LengthsRoundForReading) {
    EXPECT_EQ(words::short_length(274.32, false), "900 ft");   // 900 x 0.3048
    EXPECT_EQ(words::short_length(105.5, false), "350 ft");    // 346.1 ft
    EXPECT_EQ(words::short_length(400.0, false), "1,300 ft");  // 1312 ft
    EXPECT_EQ(words::short_length(2.0, false), "7 ft");        // 6.56 ft
    EXPECT_EQ(words::short_length(274.32, true), "275 m");
    EXPECT_EQ(words::long_length(3862.4, false), "2.4 miles");
    EXPECT_EQ(words::long_length(1609.344, false), "1.0 mile");
    EXPECT_EQ(words::long_length(3862.4, true), "3.9 km");
}

TEST(Words, RingsSayBalesAndHowFarApart) {
    PlannedFeeding feeding;
    feeding.in_rings = true;
    feeding.lines = {{.bales = 1, .places = {{0.0, 0.0}}}};
    EXPECT_EQ(words::set_in_rings(feeding, false), "set 1 bale in the ring");
    feeding.lines.push_back({.bales = 2, .places = {{0.0, 50.0}, {32.0, 50.0}}});
    EXPECT_EQ(words::set_in_rings(feeding, false), "set 3 bales in the rings, 100 ft apart");
    EXPECT_EQ(words::set_in_rings(feeding, true), "set 3 bales in the rings, 32 m apart");
}

TEST(Words, AmountsKeepTheirUnit) {
    EXPECT_EQ(words::area(446.0 * 4046.8564224, false), "446 acres");
    EXPECT_EQ(words::area(1.8e6, true), "180 ha");
    EXPECT_EQ(words::volume(7.2, false), "1.9 gal");  // 7.2 / 3.785411784 = 1.902
    EXPECT_EQ(words::volume(7.2, true), "7.2 L");
    EXPECT_EQ(words::weight(1000.0, false), "2,200 lb");  // 2204.6
    EXPECT_EQ(words::weight(1234.0, true), "1,230 kg");
    EXPECT_EQ(words::temperature(-8.0, false), "18 °F");  // 17.6
    EXPECT_EQ(words::temperature(-8.0, true), "-8 °C");
    EXPECT_EQ(words::temperature(-0.2, true), "0 °C");
    EXPECT_EQ(words::money(14.2, "USD"), "$14.20");
    EXPECT_EQ(words::money(14.2, "CAD"), "14.20 CAD");
    EXPECT_EQ(words::bale_density(38.0 / units::kM2PerAcre, false), "38");
    EXPECT_EQ(words::bale_density(2.0 / units::kM2PerAcre, false), "2");
    EXPECT_EQ(words::bale_density(0.25 / units::kM2PerHectare, true), "0.2");
    EXPECT_EQ(words::whole_number(1234567.0), "1,234,567");
    EXPECT_EQ(words::nutrient_rate(0.0045, false), "40 lb/ac");  // 45 kg/ha x 0.892 = 40.1
    EXPECT_EQ(words::nutrient_rate(0.0045, true), "45 kg/ha");
    EXPECT_EQ(words::nutrient("n"), "N");
    EXPECT_EQ(words::nutrient("p2o5"), "P2O5");
    EXPECT_EQ(words::nutrient("k2o"), "K2O");
}

TEST(Words, MinutesAreWholeAndNeverNone) {
    EXPECT_EQ(words::minutes(409.0), "7 min");
    EXPECT_EQ(words::minutes(3.0), "1 min");
    EXPECT_EQ(words::minutes(3900.0), "1 h 05 min");
}

TEST(Words, CompassHasEightPoints) {
    EXPECT_EQ(words::compass(0.0), "N");
    EXPECT_EQ(words::compass(units::rad_from_deg(45.0)), "NE");
    EXPECT_EQ(words::compass(units::rad_from_deg(340.0)), "N");
    EXPECT_EQ(words::compass(units::rad_from_deg(-90.0)), "W");
    EXPECT_EQ(words::compass_word(units::rad_from_deg(200.0)), "south");
}

TEST(Words, DatesReadAsARancherSaysThem) {
    EXPECT_EQ(words::short_date(day(2027, 1, 11)), "Mon 11 Jan");  // a Monday by any calendar
    EXPECT_EQ(words::date_range(day(2027, 4, 9), day(2027, 4, 21)), "9–21 April");
    EXPECT_EQ(words::date_range(day(2027, 3, 28), day(2027, 4, 4)), "28 March–4 April");
    EXPECT_EQ(words::date_range(day(2027, 4, 9), day(2027, 4, 9)), "9 April");
    EXPECT_EQ(words::list({"a", "b", "c"}), "a, b and c");
}

TEST(Words, HayLineSaysWhatIsKnown) {
    HayLasts lasts{day(2027, 4, 9), day(2027, 4, 21), day(2027, 5, 15), 150, 220};
    EXPECT_EQ(words::hay_lasts(lasts),
              "Hay lasts to 9–21 April at this rate; turn-out 15 May; short 150–220 bales");
    lasts.short_bales_least = 0;
    EXPECT_EQ(words::hay_lasts(lasts),
              "Hay lasts to 9–21 April at this rate; turn-out 15 May; short up to 220 bales");
    lasts.short_bales_most = 0;
    EXPECT_EQ(words::hay_lasts(lasts),
              "Hay lasts to 9–21 April at this rate; turn-out 15 May; no bales short");
    lasts.earliest.reset();
    lasts.latest.reset();
    EXPECT_EQ(words::hay_lasts(lasts), "Hay lasts past turn-out; turn-out 15 May; no bales short");
    EXPECT_EQ(words::hay_lasts({}),
              "Hay lasts more than a year at this rate; turn-out date not given");
}

}  // namespace
}  // namespace haylane
