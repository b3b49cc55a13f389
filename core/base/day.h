#pragma once
// Calendar days: ISO 8601 text, windows that may repeat every year, and seasons.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace haylane {

using std::chrono::sys_days;

// "2027-01-11" to a day; nullopt for anything else, impossible dates included.
[[nodiscard]] std::optional<sys_days> parse_day(std::string_view text);
// "2027-01-11".
[[nodiscard]] std::string format_day(sys_days day);
// "MM-DD" to month and day; 02-29 is accepted.
[[nodiscard]] std::optional<std::chrono::month_day> parse_month_day(std::string_view text);

// A date as users write it: with a year, or one that comes every year.
struct DateMark {
    std::optional<sys_days> dated;
    std::optional<std::chrono::month_day> yearly;
    [[nodiscard]] bool given() const { return dated || yearly; }
};

// Either form above; nullopt if neither.
[[nodiscard]] std::optional<DateMark> parse_date_mark(std::string_view text);

// Days from `from` to `to`, both included. One open end reaches for ever (dated) or to the year's
// end (yearly). A yearly window may run over New Year. Neither end given: never.
struct DateWindow {
    DateMark from;
    DateMark to;
    [[nodiscard]] bool holds(sys_days day) const;
};

// The day that `mark` means in year `y`; 29 February falls on the 28th in common years.
[[nodiscard]] sys_days in_year(std::chrono::month_day mark, std::chrono::year y);
// First day of the season that `day` is in, for seasons that start on `start` each year.
[[nodiscard]] sys_days season_start(sys_days day, std::chrono::month_day start);
// "2026-27".
[[nodiscard]] std::string season_name(sys_days day, std::chrono::month_day start);

}  // namespace haylane
