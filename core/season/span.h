#pragma once
// Stretches of days that feedings are added up over: feeding seasons, or any two dates.

#include "core/ranch/ranch.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace haylane {

// Days from `from` to `to`, both included.
struct Span {
    std::string name;  // "2026-27", or the two dates
    sys_days from;
    sys_days to;
};

// The season that a day is in, by the ranch's season_start.
[[nodiscard]] Span season_of(const Ranch& ranch, sys_days day);
// Every season from the first to the last feeding on record, oldest first; none without feedings.
[[nodiscard]] std::vector<Span> seasons_on_record(const Ranch& ranch);
// A season by its name; nullopt for text that names none.
[[nodiscard]] std::optional<Span> season_named(const Ranch& ranch, std::string_view name);
// From the first to the last day on record; nullopt without feedings.
[[nodiscard]] std::optional<Span> all_on_record(const Ranch& ranch);
[[nodiscard]] Span span_between(sys_days from, sys_days to);
// Share of a feeding's days that lie in the span: what of its bales counts there. Shares over spans
// that cover all days once sum to 1.
[[nodiscard]] double share_in(const FeedingRecord& feeding, const Span& span);

}  // namespace haylane
