// A shelter's lee is the shelter swept down-wind from the near to the far distance (a Minkowski sum
// with that piece of the wind's line), and the drift behind every shelter, swept from 0 to the near
// distance, is taken off. High ground counts by the same two numbers: a place 5 to 10 heights
// behind a rise sees it at a slope of 1 in 10 to 1 in 5 (a horizon test), on cells of 10 m. The
// numbers are common practice, no source; the reach and the least rise are assumptions.
#include "core/ground/sheltered_ground.h"

#include "core/geometry/boolean_ops.h"

#include <algorithm>
#include <utility>

namespace haylane {

namespace {

constexpr double kReach_m = 500.0;
constexpr double kLeastRise_m = 3.0;
constexpr double kCell_m = 10.0;
constexpr double kLeastArea_m2 = 1e-6;  // an edge along the wind sweeps over nothing

using Shapes = std::vector<MultiPolygon>;

struct Wind {
    Point down;  // unit step down-wind
    Point across;
};

Wind wind_from(double azimuth_rad) {
    const Point down = along_azimuth(azimuth_rad) * -1.0;
    return {down, {down.y, -down.x}};
}

// The edges that a shelter stands on the ground with.
MultiPolyline edges_of(const Shelter& shelter, double height_m, const Wind& wind) {
    MultiPolyline edges = boundary_lines(shelter.area);
    edges.insert(edges.end(), shelter.lines.begin(), shelter.lines.end());
    const Point half = wind.across * (height_m / 2.0);
    for (const Point p : shelter.points) edges.push_back({p - half, p + half});
    return edges;
}

MultiPolygon moved(MultiPolygon shape, Point by) {
    for (Polygon& part : shape) {
        for (Point& p : part.outer) p = p + by;
        for (Ring& hole : part.holes)
            for (Point& p : hole) p = p + by;
    }
    return shape;
}

// What is covered while edges and area move from `from` to `to`.
Result<MultiPolygon> swept(const MultiPolyline& edges, const MultiPolygon& area, Point from,
                           Point to) {
    Shapes shapes;
    if (!area.empty()) shapes = {moved(area, from), moved(area, to)};
    for (const Polyline& edge : edges) {
        for (std::size_t i = 0; i + 1 < edge.size(); ++i) {
            Ring ring{edge[i] + from, edge[i + 1] + from, edge[i + 1] + to, edge[i] + to};
            if (ring_area_m2(ring) < 0.0) std::reverse(ring.begin(), ring.end());
            if (ring_area_m2(ring) > kLeastArea_m2) shapes.push_back({{std::move(ring), {}}});
        }
    }
    return unite(shapes);
}

Box box_of_edges(const MultiPolyline& edges) {
    Box box;
    for (const Polyline& edge : edges)
        for (const Point p : edge) box.add(p);
    return box;
}

// Fills parts behind shelters, not yet cut to the pasture, and the drifts behind them.
Result<void> add_shelters(const Ranch& ranch, const Box& pasture, const Wind& wind,
                          std::vector<LeePart>& parts, Shapes& drifts) {
    const Settings& s = ranch.settings;
    if (s.lee_far_heights <= s.lee_near_heights) return {};
    for (const Shelter& shelter : ranch.shelter) {
        const double height = shelter.height_m.value_or(s.shelter_height_m);
        const MultiPolyline edges = edges_of(shelter, height, wind);
        const Point near = wind.down * (height * s.lee_near_heights);
        const Point far = wind.down * (height * s.lee_far_heights);
        if (!pasture.meets(box_of_edges(edges).grown_by(norm_m(far)))) continue;
        auto lee = swept(edges, shelter.area, near, far);
        if (!lee) return fail(lee.error());
        auto drift = swept(edges, shelter.area, {}, near);
        if (!drift) return fail(drift.error());
        parts.push_back({shelter.name, std::move(*lee)});
        drifts.push_back(std::move(*drift));
    }
    return {};
}

// Cells of the box under high ground, one rectangle a run of cells in a row.
Result<MultiPolygon> under_high_ground(const Settings& s, const Terrain& terrain, const Box& box,
                                       double wind_from_rad) {
    if (!terrain.known()) return MultiPolygon{};
    const Grid grid = grid_over(box, std::max(kCell_m, terrain.elevation().grid.cell_m));
    Shapes runs;
    for (int j = 0; j < grid.ny; ++j) {
        int begin = -1;
        for (int i = 0; i <= grid.nx; ++i) {
            const bool in_lee =
                i < grid.nx && is_under_high_ground(terrain, grid.center(i, j), wind_from_rad,
                                                    s.lee_near_heights, s.lee_far_heights);
            if (in_lee && begin < 0) begin = i;
            if (in_lee || begin < 0) continue;
            const double x0 = grid.x0 + begin * grid.cell_m;
            const double x1 = grid.x0 + i * grid.cell_m;
            const double y0 = grid.y0 + j * grid.cell_m;
            const double y1 = grid.y0 + (j + 1) * grid.cell_m;
            runs.push_back({{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}});
            begin = -1;
        }
    }
    return unite(runs);
}

}  // namespace

bool is_under_high_ground(const Terrain& terrain, Point place, double wind_from_rad,
                          double near_heights, double far_heights) {
    const auto own = terrain.elevation_m(place);
    if (!own) return false;
    const Point up_wind = along_azimuth(wind_from_rad);
    const double step = std::max(kCell_m / 2.0, terrain.elevation().grid.cell_m);
    double steepest = 0.0;
    for (double away = step; away <= kReach_m; away += step) {
        const auto there = terrain.elevation_m(place + up_wind * away);
        if (there && *there - *own >= kLeastRise_m)
            steepest = std::max(steepest, (*there - *own) / away);
    }
    return steepest > 0.0 && steepest * far_heights >= 1.0 && steepest * near_heights <= 1.0;
}

Result<ShelteredGround> sheltered_ground(const Ranch& ranch, PastureId pasture,
                                         const Terrain& terrain, double wind_from_rad) {
    const MultiPolygon& shape = ranch[pasture].shape;
    const Box box = box_of(shape);
    std::vector<LeePart> parts;
    Shapes drifts;
    auto added = add_shelters(ranch, box, wind_from(wind_from_rad), parts, drifts);
    if (!added) return fail(added.error());
    auto high = under_high_ground(ranch.settings, terrain, box, wind_from_rad);
    if (!high) return fail(high.error());
    parts.push_back({"", std::move(*high)});
    const auto drift = unite(drifts);
    if (!drift) return fail(drift.error());
    ShelteredGround ground;
    Shapes all;
    for (LeePart& part : parts) {
        auto inside = intersect(part.area, shape);
        if (!inside) return fail(inside.error());
        auto left = subtract(*inside, *drift);
        if (!left) return fail(left.error());
        if (left->empty()) continue;
        all.push_back(*left);
        ground.parts.push_back({std::move(part.of), std::move(*left)});
    }
    auto area = unite(all);
    if (!area) return fail(area.error());
    ground.area = std::move(*area);
    return ground;
}

}  // namespace haylane
