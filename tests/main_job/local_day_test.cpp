// Local days of moments, against the rules of the time zones as published by IANA.
#include "app/session/local_day.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

double utc_s(const char* day, int hour, int minute) {
    return static_cast<double>(
        std::chrono::sys_seconds(*parse_day(day)).time_since_epoch().count() + hour * 3600 +
        minute * 60);
}

// America/Denver: UTC-7 in winter, UTC-6 from the second Sunday of March, 2 in the morning.
TEST(LocalDay, GoesByTheNamedZoneAndItsSummerTime) {
    const LocalDay denver("America/Denver", -103.4);
    EXPECT_TRUE(denver.problems().empty());
    EXPECT_EQ(format_day(denver.day(utc_s("2027-01-12", 6, 59))), "2027-01-11");
    EXPECT_EQ(format_day(denver.day(utc_s("2027-01-12", 7, 0))), "2027-01-12");
    EXPECT_EQ(denver.clock(utc_s("2027-01-12", 1, 5)), "18:05");
    EXPECT_EQ(denver.clock(utc_s("2027-03-14", 8, 59)), "01:59");
    EXPECT_EQ(denver.clock(utc_s("2027-03-14", 9, 0)), "03:00");
    EXPECT_EQ(format_day(denver.day(utc_s("2027-03-15", 5, 59))), "2027-03-14");
}

TEST(LocalDay, AMomentOfItsClockIsFoundAgain) {
    using std::chrono::seconds;
    const LocalDay denver("America/Denver", -103.4);
    const auto at = [&denver](const char* day, int hour, int minute) {
        return denver.moment(*parse_day(day), seconds(hour * 3600 + minute * 60));
    };
    EXPECT_EQ(at("2027-01-11", 18, 5), utc_s("2027-01-12", 1, 5));
    EXPECT_EQ(at("2027-07-11", 18, 5), utc_s("2027-07-12", 0, 5));
    EXPECT_EQ(at("2027-03-14", 2, 30), utc_s("2027-03-14", 9, 0)) << "no clock showed it";
    EXPECT_EQ(at("2027-11-07", 1, 30), utc_s("2027-11-07", 7, 30)) << "the first of two";
    EXPECT_EQ(denver.clock_to_second(utc_s("2027-01-12", 1, 5) + 7.9), "18:05:07");
    EXPECT_EQ(LocalDay("", -103.4).moment(*parse_day("2027-01-11"), seconds(18 * 3600)),
              utc_s("2027-01-12", 1, 0));
}

TEST(LocalDay, WithoutAZoneGoesByLongitudeAndSaysSo) {
    for (const char* zone : {"", "Nowhere/Ranch"}) {
        const LocalDay by_longitude(zone, -103.4);
        ASSERT_EQ(by_longitude.problems().size(), 1U);
        EXPECT_EQ(by_longitude.problems()[0].code, "time_zone_by_longitude");
        EXPECT_EQ(by_longitude.clock(utc_s("2027-01-12", 1, 5)), "18:05");
        EXPECT_EQ(format_day(by_longitude.day(utc_s("2027-01-12", 6, 59))), "2027-01-11");
    }
    EXPECT_EQ(LocalDay("", 172.0).clock(utc_s("2027-01-12", 1, 5)), "12:05");
}

}  // namespace
}  // namespace haylane
