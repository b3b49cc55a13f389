#include "core/ground/fed_ground.h"

#include "core/geometry/boolean_ops.h"

#include <utility>
#include <variant>
#include <vector>

namespace haylane {

namespace {

using Shapes = std::vector<MultiPolygon>;

Result<void> keep(Shapes& shapes, Result<MultiPolygon> shape) {
    if (!shape) return fail(shape.error());
    shapes.push_back(std::move(*shape));
    return {};
}

Result<void> add_record(Shapes& shapes, const FeedingRecord& record, double away_m) {
    if (const auto* area = std::get_if<MultiPolygon>(&record.shape))
        return keep(shapes, buffer_shape(*area, away_m));
    if (const auto* lines = std::get_if<MultiPolyline>(&record.shape)) {
        for (const Polyline& line : *lines)
            if (auto kept = keep(shapes, buffer_line(line, away_m)); !kept) return kept;
    }
    if (const auto* points = std::get_if<std::vector<Point>>(&record.shape)) {
        for (const Point p : *points)
            if (auto kept = keep(shapes, buffer_point(p, away_m)); !kept) return kept;
    }
    return {};
}

}  // namespace

MultiPolyline rows_fed(const FeedingRecord& record) {
    if (const auto* lines = std::get_if<MultiPolyline>(&record.shape)) return *lines;
    if (const auto* points = std::get_if<std::vector<Point>>(&record.shape)) return {*points};
    return {};
}

Result<MultiPolygon> fed_ground(const Ranch& ranch, PastureId pasture, const FedBetween& when,
                                double away_m) {
    Shapes shapes;
    for (const FeedingRecord& record : ranch.feedings) {
        if (record.pasture != pasture || record.to < when.since) continue;
        if (when.before && record.from >= *when.before) continue;
        if (auto added = add_record(shapes, record, away_m); !added) return fail(added.error());
    }
    return unite(shapes);
}

}  // namespace haylane
