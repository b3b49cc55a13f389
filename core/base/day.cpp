#include "core/base/day.h"

#include <charconv>

#include <fmt/format.h>

namespace haylane {

namespace {

using std::chrono::month_day;
using std::chrono::year;
using std::chrono::year_month_day;

std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
    if (at + count > text.size()) return std::nullopt;
    int value = 0;
    for (std::size_t i = at; i < at + count; ++i) {
        if (text[i] < '0' || text[i] > '9') return std::nullopt;
        value = value * 10 + (text[i] - '0');
    }
    return value;
}

bool on_or_after(const DateMark& mark, sys_days day) { return !mark.dated || day >= *mark.dated; }

}  // namespace

std::optional<sys_days> parse_day(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto y = digits(text, 0, 4);
    const auto m = digits(text, 5, 2);
    const auto d = digits(text, 8, 2);
    if (!y || !m || !d) return std::nullopt;
    const year_month_day date{year{*y}, std::chrono::month{static_cast<unsigned>(*m)},
                              std::chrono::day{static_cast<unsigned>(*d)}};
    if (!date.ok()) return std::nullopt;
    return sys_days{date};
}

std::string format_day(sys_days day) {
    const year_month_day date{day};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::optional<month_day> parse_month_day(std::string_view text) {
    if (text.size() != 5 || text[2] != '-') return std::nullopt;
    const auto m = digits(text, 0, 2);
    const auto d = digits(text, 3, 2);
    if (!m || !d) return std::nullopt;
    const month_day date{std::chrono::month{static_cast<unsigned>(*m)},
                         std::chrono::day{static_cast<unsigned>(*d)}};
    if (!date.ok()) return std::nullopt;
    return date;
}

std::optional<DateMark> parse_date_mark(std::string_view text) {
    if (const auto day = parse_day(text)) return DateMark{*day, std::nullopt};
    if (const auto yearly = parse_month_day(text)) return DateMark{std::nullopt, *yearly};
    return std::nullopt;
}

bool DateWindow::holds(sys_days day) const {
    if (!from.given() && !to.given()) return false;
    const year y = year_month_day{day}.year();
    if (!from.yearly && !to.yearly)
        return on_or_after(from, day) && (!to.dated || day <= *to.dated);
    if (from.yearly && to.yearly) {
        const sys_days a = in_year(*from.yearly, y);
        const sys_days b = in_year(*to.yearly, y);
        return a <= b ? (day >= a && day <= b) : (day >= a || day <= b);
    }
    const bool after = from.yearly ? day >= in_year(*from.yearly, y) : on_or_after(from, day);
    const bool before = to.yearly ? day <= in_year(*to.yearly, y) : (!to.dated || day <= *to.dated);
    return after && before;
}

sys_days in_year(month_day mark, year y) {
    const year_month_day date{y, mark.month(), mark.day()};
    return date.ok() ? sys_days{date} : sys_days{y / mark.month() / std::chrono::last};
}

sys_days season_start(sys_days day, month_day start) {
    const year y = year_month_day{day}.year();
    const sys_days this_year = in_year(start, y);
    return day >= this_year ? this_year : in_year(start, y - std::chrono::years{1});
}

std::string season_name(sys_days day, month_day start) {
    const int first = static_cast<int>(year_month_day{season_start(day, start)}.year());
    return fmt::format("{}-{:02}", first, (first + 1) % 100);
}

}  // namespace haylane
