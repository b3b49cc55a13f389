// Checks against ISO 8601 calendar text and the Gregorian leap rule; windows and seasons by hand.
#include "core/base/day.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

sys_days day(const char* text) {
    const auto parsed = parse_day(text);
    EXPECT_TRUE(parsed.has_value()) << text;
    return parsed.value_or(sys_days{});
}

DateWindow window(const char* from, const char* to) {
    DateWindow window;
    if (*from != '\0') window.from = parse_date_mark(from).value();
    if (*to != '\0') window.to = parse_date_mark(to).value();
    return window;
}

TEST(Day, ReadsAndWritesIsoText) {
    EXPECT_EQ(format_day(day("2027-01-11")), "2027-01-11");
    EXPECT_EQ(day("1970-01-01"), sys_days{});
    EXPECT_EQ(day("2028-03-01") - day("2028-02-28"), std::chrono::days{2});  // leap
    EXPECT_EQ(day("2000-02-29") + std::chrono::days{1}, day("2000-03-01"));
}

TEST(Day, RefusesEverythingElse) {
    for (const char* text :
         {"", "2027-1-11", "2027/01/11", "2027-02-29", "1900-02-29", "2027-13-01", "2027-00-10",
          "2027-01-00", "2027-01-32", "2027-01-11 ", "27-01-11", "+027-01-11", "2027-01-1x"})
        EXPECT_FALSE(parse_day(text).has_value()) << text;
    for (const char* text : {"", "1-11", "02-30", "13-01", "00-01", "01/11", "01-111"})
        EXPECT_FALSE(parse_month_day(text).has_value()) << text;
    EXPECT_TRUE(parse_month_day("02-29").has_value());
    EXPECT_FALSE(parse_date_mark("soon").has_value());
}

TEST(DateMark, IsDatedOrYearly) {
    EXPECT_TRUE(parse_date_mark("2027-01-11")->dated.has_value());
    EXPECT_TRUE(parse_date_mark("01-11")->yearly.has_value());
    EXPECT_FALSE(DateMark{}.given());
}

TEST(DateWindow, DatedHoldsBothEnds) {
    const DateWindow w = window("2026-12-20", "2027-01-10");
    EXPECT_FALSE(w.holds(day("2026-12-19")));
    EXPECT_TRUE(w.holds(day("2026-12-20")));
    EXPECT_TRUE(w.holds(day("2027-01-10")));
    EXPECT_FALSE(w.holds(day("2027-01-11")));
    EXPECT_FALSE(w.holds(day("2025-12-25")));
}

TEST(DateWindow, YearlyComesEachYearAndMayRunOverNewYear) {
    const DateWindow calving = window("03-01", "05-15");
    const DateWindow winter = window("11-15", "02-29");
    for (const int year : {2025, 2028, 2100}) {
        const std::string y = std::to_string(year);
        EXPECT_TRUE(calving.holds(day((y + "-03-01").c_str())));
        EXPECT_TRUE(calving.holds(day((y + "-05-15").c_str())));
        EXPECT_FALSE(calving.holds(day((y + "-02-28").c_str())));
        EXPECT_FALSE(calving.holds(day((y + "-05-16").c_str())));
        EXPECT_TRUE(winter.holds(day((y + "-11-15").c_str())));
        EXPECT_TRUE(winter.holds(day((y + "-12-31").c_str())));
        EXPECT_TRUE(winter.holds(day((y + "-01-01").c_str())));
        EXPECT_TRUE(winter.holds(day((y + "-02-28").c_str())));
        EXPECT_FALSE(winter.holds(day((y + "-03-01").c_str())));
        EXPECT_FALSE(winter.holds(day((y + "-11-14").c_str())));
    }
    EXPECT_TRUE(winter.holds(day("2028-02-29")));
}

TEST(DateWindow, OpenEnds) {
    EXPECT_FALSE(window("", "").holds(day("2027-01-11")));
    EXPECT_TRUE(window("2027-01-11", "").holds(day("2099-06-01")));
    EXPECT_FALSE(window("2027-01-11", "").holds(day("2027-01-10")));
    EXPECT_TRUE(window("", "2027-01-11").holds(day("1999-06-01")));
    EXPECT_FALSE(window("", "2027-01-11").holds(day("2027-01-12")));
    EXPECT_TRUE(window("04-01", "").holds(day("2027-12-31")));  // to the year's end
    EXPECT_FALSE(window("04-01", "").holds(day("2028-01-01")));
    EXPECT_TRUE(window("", "04-01").holds(day("2027-01-01")));  // from the year's start
    EXPECT_FALSE(window("", "04-01").holds(day("2027-04-02")));
}

TEST(Season, StartsOnItsDayAndIsNamedByBothYears) {
    const auto start = parse_month_day("10-01").value();
    EXPECT_EQ(season_start(day("2027-01-11"), start), day("2026-10-01"));
    EXPECT_EQ(season_start(day("2026-10-01"), start), day("2026-10-01"));
    EXPECT_EQ(season_start(day("2026-09-30"), start), day("2025-10-01"));
    EXPECT_EQ(season_name(day("2027-01-11"), start), "2026-27");
    EXPECT_EQ(season_name(day("2099-12-31"), start), "2099-00");
    const auto leap = parse_month_day("02-29").value();
    EXPECT_EQ(in_year(leap, std::chrono::year{2027}), day("2027-02-28"));
    EXPECT_EQ(in_year(leap, std::chrono::year{2028}), day("2028-02-29"));
    EXPECT_EQ(season_start(day("2027-03-01"), leap), day("2027-02-28"));
    EXPECT_EQ(season_start(day("2028-02-28"), leap), day("2027-02-28"));
}

}  // namespace
}  // namespace haylane
