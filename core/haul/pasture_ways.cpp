// Straight moves run between points of a pasture that see each other (Lozano-Perez and Wesley 1979,
// CACM 22:560-570); trails are joined where the angle fits the two speeds (Snell's law).
#include "core/ground/feedable_ground.h"
#include "core/haul/travel_graph_builder.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {
namespace {

constexpr double kSameDirection = 1e-9;

// The directions of a line on the two sides of a place on it; nullopt where it runs straight on.
std::optional<std::pair<Point, Point>> bend_at(const Polyline& path, double along_m) {
    const Point before = along_azimuth(azimuth_at(path, along_m - kSameM));
    const Point after = along_azimuth(azimuth_at(path, along_m + kSameM));
    if (norm_m(after - before) < kSameDirection) return std::nullopt;
    return std::pair{before, after};
}

// Whether a trail may be left best at its bend: staying on it longer or leaving it sooner must not
// gain, which leaves the directions between those of Snell's law on its two sides. On a trail of
// many small bends that is a narrow wedge at each, so joins stay few.
bool leaves_best(const std::pair<Point, Point>& bend, Point direction, double ratio) {
    const double before = dot(direction, bend.first);
    const double after = dot(direction, bend.second);
    const bool onward = before >= ratio - kSameDirection && after <= ratio + kSameDirection;
    const bool back = -after >= ratio - kSameDirection && -before <= ratio + kSameDirection;
    return onward || back;
}

}  // namespace

MultiPolygon TravelGraphBuilder::free_ground(std::size_t p) {
    const Result<MultiPolygon> ground = drivable_ground(ranch_, PastureId::at(p), when_.thaw);
    if (!ground) {
        graph_.problems.push_back({ground.error().code, Severity::error,
                                   "pastures, " + ranch_.pastures[p].name, ground.error().what,
                                   ground.error().remedy});
        return {};
    }
    return *ground;
}

void TravelGraphBuilder::enter(const FreeSpace& space, int node, double limit_m,
                               std::vector<FieldPoint>& points) {
    const std::optional<Point> entry = entry_point(space, at(node), limit_m);
    if (!entry) return;
    FieldPoint point;
    point.node = *entry == at(node) ? node : add_node(*entry);
    point.joins = true;
    link(node, point.node);
    points.push_back(point);
}

std::vector<FieldPoint> TravelGraphBuilder::trail_points(std::size_t p,
                                                         const FreeSpace& space) const {
    std::vector<FieldPoint> points;
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        const TrailPiece& piece = graph_.pieces[i];
        if (piece.region != static_cast<int>(p)) continue;
        const double total = length_m(piece.path);
        for (const Mark& m : marks_[i]) {
            if (!space.region().contains(at(m.node))) continue;
            const bool end = m.along_m < kSameM || total - m.along_m < kSameM;
            const auto bend = end ? std::nullopt : bend_at(piece.path, m.along_m);
            points.push_back(
                {m.node, static_cast<int>(i), m.along_m, false, end || bend.has_value(), bend});
        }
    }
    return points;
}

std::vector<FieldPoint> TravelGraphBuilder::field_points(std::size_t p) {
    const FreeSpace& space = graph_.pastures[p].space;
    std::vector<FieldPoint> points;
    for (const Point corner : space.corners())
        points.push_back({add_node(corner), -1, 0.0, true, true, std::nullopt});
    for (const std::vector<Side>& sides : sides_)
        for (const Side& side : sides)
            if (side.region == static_cast<int>(p))
                enter(space, side.node, set_.gate_snap_m + 2.0 * kFenceGapM, points);
    for (std::size_t y = 0; y < yard_regions_.size(); ++y)
        if (yard_regions_[y] == static_cast<int>(p))
            enter(space, graph_.yard_nodes[y], set_.setback_building_m, points);
    const std::vector<FieldPoint> on_trails = trail_points(p, space);
    points.insert(points.end(), on_trails.begin(), on_trails.end());
    return points;
}

void TravelGraphBuilder::join_trails(std::size_t p, const FieldPoint& from) {
    const FreeSpace& space = graph_.pastures[p].space;
    const Point start = at(from.node);
    const double ratio =
        from.bend
            ? field_per_unit_ / trail_per_unit(graph_.pieces[static_cast<std::size_t>(from.piece)])
            : 0.0;
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        const TrailPiece& piece = graph_.pieces[i];
        if (piece.region != static_cast<int>(p)) continue;
        const double per_unit = trail_per_unit(piece);
        double along = 0.0;
        for (std::size_t k = 1; k < piece.path.size(); ++k) {
            const Point a = piece.path[k - 1];
            const Point b = piece.path[k];
            const double piece_m = distance_m(a, b);
            for (const double d : leaving_points_m(a, b, start, field_per_unit_, per_unit)) {
                const Point join = lerp(a, b, d / piece_m);
                const double away_m = distance_m(start, join);
                if (away_m < kSameM) continue;
                if (from.bend && !leaves_best(*from.bend, (join - start) * (1.0 / away_m), ratio))
                    continue;
                if (space.sees(start, join)) link(from.node, mark(i, along + d, join));
            }
            along += piece_m;
        }
    }
}

void TravelGraphBuilder::link_points(const FreeSpace& space,
                                     const std::vector<FieldPoint>& points) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        for (std::size_t j = i + 1; j < points.size(); ++j) {
            const FieldPoint& a = points[i];
            const FieldPoint& b = points[j];
            if (a.corner && b.corner) continue;
            const double across = distance_m(at(a.node), at(b.node)) / field_per_unit_;
            if (a.piece >= 0 && a.piece == b.piece) {
                const TrailPiece& piece = graph_.pieces[static_cast<std::size_t>(a.piece)];
                if (std::abs(a.along_m - b.along_m) / trail_per_unit(piece) <= across) continue;
            }
            if (space.sees(at(a.node), at(b.node))) link(a.node, b.node);
        }
    }
}

void TravelGraphBuilder::add_pasture(std::size_t p) {
    PastureWays& ways = graph_.pastures[p];
    ways.space = FreeSpace(free_ground(p));
    const std::vector<FieldPoint> points = field_points(p);
    for (const FieldPoint& point : points) ways.nodes.push_back(point.node);
    // Corners come first, so their numbers are places in `points`.
    for (const FreeSpace::Sight& sight : ways.space.sights())
        link(points[static_cast<std::size_t>(sight.a)].node,
             points[static_cast<std::size_t>(sight.b)].node);
    link_points(ways.space, points);
    for (const FieldPoint& point : points)
        if (point.joins) join_trails(p, point);
}

std::vector<double> leaving_points_m(Point a, Point b, Point p, double field_per_unit,
                                     double trail_per_unit) {
    const double length = distance_m(a, b);
    if (length <= 0.0) return {};
    const double foot = dot(p - a, b - a) / length;
    std::vector<double> found{foot};
    if (trail_per_unit > field_per_unit) {
        const double away = std::abs(cross(b - a, p - a)) / length;
        const double sine = field_per_unit / trail_per_unit;
        const double shift = away * sine / std::sqrt(1.0 - sine * sine);
        found.push_back(foot - shift);
        found.push_back(foot + shift);
    }
    // A hair beyond an end counts as the end: the same place on the next piece may be as far
    // beyond.
    std::erase_if(found, [&](double d) { return d < -kSameM || d > length + kSameM; });
    for (double& d : found) d = std::clamp(d, 0.0, length);
    return found;
}

std::optional<Point> entry_point(const FreeSpace& space, Point p, double limit_m) {
    constexpr double kNudgeM = 0.02;
    constexpr int kDirections = 16;
    const Region& region = space.region();
    if (region.empty()) return std::nullopt;
    if (region.contains(p)) return p;
    Foot best;
    best.away_m = std::numeric_limits<double>::infinity();
    for (const Polyline& ring : boundary_lines(region.shape())) {
        const Foot foot = nearest_foot(p, ring);
        if (foot.away_m < best.away_m) best = foot;
    }
    if (best.away_m > limit_m) return std::nullopt;
    std::optional<Point> inside;
    double depth = 0.0;
    for (int k = 0; k < kDirections; ++k) {
        const Point q = best.at + along_azimuth(k * 6.283185307179586 / kDirections) * kNudgeM;
        if (!region.contains(q)) continue;
        const double d = region.distance_to_edge_m(q);
        if (d <= depth) continue;
        depth = d;
        inside = q;
    }
    return inside;
}

}  // namespace haylane
