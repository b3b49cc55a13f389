#include "app/session/kept_plans.h"

#include <algorithm>
#include <map>
#include <utility>

namespace haylane {

namespace {

KeptDay with_lines(PlannedDay planned, const StoredPlan& plan) {
    std::vector<FedLine> lines = lines_of(planned, plan);
    return {std::move(planned), std::move(lines)};
}

}  // namespace

std::vector<FedLine> lines_of(const PlannedDay& planned, const StoredPlan& plan) {
    std::vector<FedLine> lines;
    if (!planned.places.empty()) {  // the rows that rings stand in
        for (const StoredLine& row : plan.lines)
            if (row.date == planned.date && row.herd == planned.herd)
                lines.push_back({row.id, row.path});
    }
    for (const std::string& id : planned.line_ids) {
        for (const StoredLine& line : plan.lines) {
            if (line.id == id) lines.push_back({id, line.path});
        }
    }
    return lines;
}

Result<std::vector<KeptDay>> kept_days(const std::filesystem::path& book) {
    const auto plans = stored_plans(book);
    if (!plans) return fail(plans.error());
    std::map<std::pair<sys_days, std::string>, KeptDay> by_day;
    for (const StoredPlan& plan : *plans) {
        auto days = planned_days(plan.json);
        if (!days) return fail(days.error());
        // A later plan replaces the whole of an earlier one from its first day on.
        std::erase_if(by_day, [&](const auto& entry) { return entry.first.first >= plan.from; });
        for (PlannedDay& day : *days) {
            const auto key = std::make_pair(day.date, day.herd);
            by_day.insert_or_assign(key, with_lines(std::move(day), plan));
        }
    }
    std::vector<KeptDay> kept;
    kept.reserve(by_day.size());
    for (auto& [key, day] : by_day) kept.push_back(std::move(day));
    return kept;
}

}  // namespace haylane
