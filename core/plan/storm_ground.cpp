// Days are counted once, however many herds are fed on them.
#include "core/plan/storm_ground.h"

#include "core/geometry/boolean_ops.h"

#include <algorithm>
#include <set>
#include <variant>

namespace haylane {

namespace {

constexpr double kSampleStep_m = 5.0;
constexpr double kLiesIn_ratio = 0.5;

double share_in(const std::vector<Point>& points, const MultiPolygon& area) {
    if (points.empty()) return 0.0;
    const auto inside =
        std::count_if(points.begin(), points.end(), [&](Point p) { return contains(area, p); });
    return static_cast<double>(inside) / static_cast<double>(points.size());
}

bool lies_in(const MultiPolyline& lines, const MultiPolygon& area) {
    std::vector<Point> points;
    for (const Polyline& line : lines) {
        const Polyline dense = densified(line, kSampleStep_m);
        points.insert(points.end(), dense.begin(), dense.end());
    }
    return share_in(points, area) >= kLiesIn_ratio;
}

bool lies_in(const FeedingRecord& record, const MultiPolygon& area) {
    if (const auto* lines = std::get_if<MultiPolyline>(&record.shape)) return lies_in(*lines, area);
    if (const auto* points = std::get_if<std::vector<Point>>(&record.shape))
        return share_in(*points, area) >= kLiesIn_ratio;
    if (const auto* patch = std::get_if<MultiPolygon>(&record.shape)) {
        const auto shared = intersect(*patch, area);
        return shared && area_m2(*shared) >= kLiesIn_ratio * area_m2(*patch);
    }
    return false;  // somewhere in the pasture
}

void add_days(sys_days from, sys_days to, std::set<sys_days>& days) {
    for (sys_days day = from; day <= to; day += std::chrono::days{1}) days.insert(day);
}

}  // namespace

std::optional<int> days_on_storm_ground(PlanContext& context, const ScheduledFeeding& feeding,
                                        const std::vector<PlannedFeeding>& earlier) {
    const Ranch& ranch = context.ranch();
    const bool all = ranch[feeding.pasture].sacrifice;
    if (!all && !feeding.ground.lee_of_rad) return std::nullopt;
    MultiPolygon lee;
    if (!all) {
        const auto found = context.sheltered(feeding.pasture, *feeding.ground.lee_of_rad);
        if (!found) return std::nullopt;  // told when the lines were laid
        lee = (*found)->area;
    }
    const sys_days since = season_start(feeding.date, ranch.settings.season_start);
    const sys_days last = feeding.date + std::chrono::days{feeding.days - 1};
    std::set<sys_days> days;
    add_days(feeding.date, last, days);
    for (const FeedingRecord& record : ranch.feedings) {
        if (record.pasture != feeding.pasture || record.to < since || record.from > last) continue;
        if (all || lies_in(record, lee))
            add_days(std::max(record.from, since), std::min(record.to, last), days);
    }
    for (const PlannedFeeding& planned : earlier) {
        if (planned.pasture != feeding.pasture) continue;
        MultiPolyline lines;
        for (const PlannedLine& line : planned.lines) lines.push_back(line.path);
        if (all || lies_in(lines, lee))
            add_days(planned.date, planned.date + std::chrono::days{planned.days_covered - 1},
                     days);
    }
    return static_cast<int>(days.size());
}

}  // namespace haylane
