#include "core/season/span.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

Span season_of(const Ranch& ranch, sys_days day) {
    const auto start = ranch.settings.season_start;
    const sys_days from = season_start(day, start);
    const std::chrono::year_month_day first{from};
    const sys_days next = in_year(start, first.year() + std::chrono::years{1});
    return {season_name(from, start), from, next - std::chrono::days{1}};
}

std::vector<Span> seasons_on_record(const Ranch& ranch) {
    std::vector<Span> seasons;
    const auto all = all_on_record(ranch);
    if (!all) return seasons;
    for (sys_days day = all->from; day <= all->to;) {
        seasons.push_back(season_of(ranch, day));
        day = seasons.back().to + std::chrono::days{1};
    }
    return seasons;
}

std::optional<Span> season_named(const Ranch& ranch, std::string_view name) {
    const auto day = name.size() == 7 ? parse_day(std::string(name.substr(0, 4)) + "-01-01")
                                      : std::optional<sys_days>{};
    if (!day) return std::nullopt;
    const std::chrono::year_month_day new_year{*day};
    const Span season = season_of(ranch, in_year(ranch.settings.season_start, new_year.year()));
    if (season.name != name) return std::nullopt;
    return season;
}

std::optional<Span> all_on_record(const Ranch& ranch) {
    if (ranch.feedings.empty()) return std::nullopt;
    Span all = span_between(ranch.feedings.front().from, ranch.feedings.front().to);
    for (const FeedingRecord& feeding : ranch.feedings) {
        all.from = std::min(all.from, feeding.from);
        all.to = std::max(all.to, feeding.to);
    }
    all.name = span_between(all.from, all.to).name;
    return all;
}

Span span_between(sys_days from, sys_days to) {
    return {fmt::format("{} to {}", format_day(from), format_day(to)), from, to};
}

double share_in(const FeedingRecord& feeding, const Span& span) {
    const sys_days from = std::max(feeding.from, span.from);
    const sys_days to = std::min(feeding.to, span.to);
    if (to < from) return 0.0;
    const auto days = static_cast<double>((to - from).count()) + 1.0;
    return days / (static_cast<double>((feeding.to - feeding.from).count()) + 1.0);
}

}  // namespace haylane
