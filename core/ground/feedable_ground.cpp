// The polygon part: one union of all that is taken off, then one difference, so that many
// overlapping setbacks cost one overlay. Steepness stays with the raster: a segment is walked cell
// by cell (Amanatides and Woo 1987), which misses no cell, however short the cut through it.
#include "core/ground/feedable_ground.h"

#include "core/geometry/boolean_ops.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

namespace haylane {

namespace {

constexpr double kDriveFromFence_m = 1.0;
constexpr double kOverlap_m2 = 100.0;    // pastures that share more lie in each other
constexpr double kThinObstacle_m = 0.5;  // each side of water drawn as a line
constexpr double kProvenCell_m = 5.0 + 1e-6;
constexpr double kProofPoints = 40000.0;  // at most about so many places are looked at

using Shapes = std::vector<MultiPolygon>;

Box box_of_item(const OffLimits& item) {
    Box box = box_of(item.area);
    const auto add = [&](const std::vector<Point>& points) {
        for (const Point p : points) box.add(p);
    };
    for (const Polyline& line : item.lines) add(line);
    add(item.points);
    return box;
}

// An area as it is when distance is 0; lines and points then take up nothing.
Result<Shapes> grown(const OffLimits& item, double area_distance, double thin_distance) {
    Shapes shapes;
    const auto keep = [&](Result<MultiPolygon> shape) -> Result<void> {
        if (!shape) return fail(shape.error());
        shapes.push_back(std::move(*shape));
        return {};
    };
    if (!item.area.empty()) {
        auto kept = keep(area_distance > 0.0 ? buffer_shape(item.area, area_distance)
                                             : Result<MultiPolygon>(item.area));
        if (!kept) return fail(kept.error());
    }
    if (thin_distance <= 0.0) return shapes;
    for (const Polyline& line : item.lines) {
        if (auto kept = keep(buffer_line(line, thin_distance)); !kept) return fail(kept.error());
    }
    for (const Point p : item.points) {
        if (auto kept = keep(buffer_point(p, thin_distance)); !kept) return fail(kept.error());
    }
    return shapes;
}

void add_soft_ground(Shapes& shapes, const Ranch& ranch, const Box& box) {
    for (const SoftGround& soft : ranch.soft)
        if (box.meets(box_of(soft.area))) shapes.push_back(soft.area);
}

// Smaller pastures fenced off inside this one, with room to drive along their fence.
Result<void> add_pastures_inside(const Ranch& ranch, PastureId pasture, Shapes& shapes) {
    const MultiPolygon& own = ranch[pasture].shape;
    for (std::size_t q = 0; q < ranch.pastures.size(); ++q) {
        const MultiPolygon& other = ranch.pastures[q].shape;
        if (q == pasture.index() || !box_of(own).meets(box_of(other))) continue;
        if (area_m2(other) > area_m2(own)) continue;
        const Result<MultiPolygon> shared = intersect(own, other);
        if (!shared) return fail(shared.error());
        if (area_m2(*shared) < kOverlap_m2) continue;
        Result<MultiPolygon> kept = buffer_shape(other, kDriveFromFence_m);
        if (!kept) return fail(kept.error());
        shapes.push_back(std::move(*kept));
    }
    return {};
}

bool blocks_driving(OffLimitsKind kind) {
    return kind == OffLimitsKind::water || kind == OffLimitsKind::wetland ||
           kind == OffLimitsKind::building;
}

// The pasture shrunk by `strip_m` less all shapes.
Result<MultiPolygon> what_is_left(const MultiPolygon& pasture, double strip_m,
                                  const Shapes& taken) {
    Result<MultiPolygon> inner =
        strip_m > 0.0 ? erode(pasture, strip_m) : Result<MultiPolygon>(pasture);
    if (!inner || inner->empty() || taken.empty()) return inner;
    Result<MultiPolygon> all = unite(taken);
    if (!all) return all;
    return subtract(*inner, *all);
}

// Slopes known at 5 m or finer at places a cell apart (further apart in very large pastures).
bool is_slope_proven(const Region& region, const Terrain& terrain) {
    if (region.empty() || !terrain.known() || !(terrain.own_cell_m() <= kProvenCell_m))
        return false;
    const double step = std::max(terrain.elevation().grid.cell_m,
                                 std::sqrt(area_m2(region.shape()) / kProofPoints));
    const Grid places = grid_over(region.box(), step);
    for (int j = 0; j < places.ny; ++j) {
        for (int i = 0; i < places.nx; ++i) {
            const Point p = places.center(i, j);
            if (region.contains(p) && !terrain.gradient(p)) return false;
        }
    }
    return true;
}

// Walks the segment a-b cell by cell and calls visit(from_m, to_m, middle) until it returns false.
template <class Visit>
void walk_cells(const Grid& grid, Point a, Point b, Visit visit) {
    const double length = distance_m(a, b);
    if (!(length > 0.0)) return;
    const Point step = (b - a) * (1.0 / length);
    // Distance along the segment to the next cell border in one axis.
    const auto next_border = [&](double at, double origin, double speed) {
        if (speed == 0.0) return std::numeric_limits<double>::infinity();
        const double cells = (at - origin) / grid.cell_m;
        const double border = speed > 0.0 ? std::floor(cells) + 1.0 : std::ceil(cells) - 1.0;
        return (origin + border * grid.cell_m - at) / speed;
    };
    double border_x = next_border(a.x, grid.x0, step.x);
    double border_y = next_border(a.y, grid.y0, step.y);
    double from = 0.0;
    while (from < length) {
        const double to = std::min({border_x, border_y, length});
        if (to > from && !visit(from, to, a + step * ((from + to) / 2.0))) return;
        if (border_x <= to) border_x += grid.cell_m / std::abs(step.x);
        if (border_y <= to) border_y += grid.cell_m / std::abs(step.y);
        from = std::max(from, to);
    }
}

// Whether a line with this heading may pass the cell that holds p.
bool is_gentle(const FeedableGround& ground, Point p, double heading_rad) {
    const auto gradient = ground.terrain->gradient(p);
    return !gradient ||
           (gradient->slope_ratio() <= ground.slope_limit_ratio &&
            cross_slope_ratio(*gradient, heading_rad) <= ground.cross_slope_limit_ratio);
}

bool knows_terrain(const FeedableGround& ground) {
    return ground.terrain != nullptr && ground.terrain->known();
}

}  // namespace

bool FeedableGround::allows(Point p) const {
    if (!region.contains(p)) return false;
    if (!knows_terrain(*this)) return true;
    const auto gradient = terrain->gradient(p);
    return !gradient || gradient->slope_ratio() <= slope_limit_ratio;
}

bool FeedableGround::allows_line(const Polyline& line) const {
    if (!region.covers(line)) return false;
    if (!knows_terrain(*this)) return true;
    bool gentle = true;
    for (std::size_t i = 0; i + 1 < line.size() && gentle; ++i) {
        const double heading = azimuth_rad(line[i], line[i + 1]);
        walk_cells(terrain->elevation().grid, line[i], line[i + 1],
                   [&](double, double, Point middle) {
                       gentle = is_gentle(*this, middle, heading);
                       return gentle;
                   });
    }
    return gentle;
}

std::vector<Region::Span> FeedableGround::allowed_spans(Point a, Point b) const {
    std::vector<Region::Span> inside = region.inside_spans(a, b);
    const double length = distance_m(a, b);
    if (!knows_terrain(*this) || !(length > 0.0)) return inside;
    const double heading = azimuth_rad(a, b);
    std::vector<Region::Span> allowed;
    for (const Region::Span& span : inside) {
        bool open = false;  // the last allowed span ends where this cell begins
        walk_cells(terrain->elevation().grid, lerp(a, b, span.from_m / length),
                   lerp(a, b, span.to_m / length), [&](double from, double to, Point middle) {
                       const bool gentle = is_gentle(*this, middle, heading);
                       if (gentle && !open)
                           allowed.push_back({span.from_m + from, span.from_m + to});
                       if (gentle) allowed.back().to_m = span.from_m + to;
                       open = gentle;
                       return true;
                   });
    }
    return allowed;
}

Result<FeedableGround> feedable_ground(const Ranch& ranch, PastureId pasture,
                                       const Terrain& terrain, const GroundConditions& conditions) {
    FeedableGround ground;
    ground.terrain = &terrain;
    ground.slope_limit_ratio = ranch.settings.slope_limit_ratio;
    ground.cross_slope_limit_ratio = ranch.settings.cross_slope_limit_ratio;
    if (!ranch[pasture].feed) return ground;
    const MultiPolygon& shape = ranch[pasture].shape;
    const Box box = box_of(shape);
    Shapes taken;
    for (const OffLimits& item : ranch.off_limits) {
        const Box reach = box_of_item(item).grown_by(1.01 * item.setback_m);
        if (!box.meets(reach)) continue;
        auto shapes = grown(item, item.setback_m, item.setback_m);
        if (!shapes) return fail(shapes.error());
        std::move(shapes->begin(), shapes->end(), std::back_inserter(taken));
    }
    if (conditions.thaw) add_soft_ground(taken, ranch, box);
    for (const MultiPolygon& closed : conditions.closed)
        if (box.meets(box_of(closed))) taken.push_back(closed);
    auto left = what_is_left(shape, conditions.fence_strip_m, taken);
    if (!left) return fail(left.error());
    ground.region = Region(std::move(*left));
    ground.slope_proven = is_slope_proven(ground.region, terrain);
    return ground;
}

Result<MultiPolygon> drivable_ground(const Ranch& ranch, PastureId pasture, bool thaw) {
    const MultiPolygon& shape = ranch[pasture].shape;
    const Box box = box_of(shape);
    Shapes taken;
    for (const OffLimits& item : ranch.off_limits) {
        if (!blocks_driving(item.kind)) continue;
        if (!box.meets(box_of_item(item).grown_by(kThinObstacle_m))) continue;
        auto shapes = grown(item, 0.0, kThinObstacle_m);
        if (!shapes) return fail(shapes.error());
        std::move(shapes->begin(), shapes->end(), std::back_inserter(taken));
    }
    if (thaw) add_soft_ground(taken, ranch, box);
    if (auto added = add_pastures_inside(ranch, pasture, taken); !added) return fail(added.error());
    return what_is_left(shape, kDriveFromFence_m, taken);
}

}  // namespace haylane
