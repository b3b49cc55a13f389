// Trails are marked at their vertices and wherever something joins them, then linked mark to mark.
// Gates get one node for each side of their fence, so that every passage costs its time. Inside a
// pasture straight moves run between points that see each other (Lozano-Perez and Wesley 1979);
// trails are joined where the angle between the two speeds is right (Snell's law).
#include "core/haul/travel_graph.h"

#include "core/geometry/boolean_ops.h"
#include "core/ground/feedable_ground.h"
#include "core/haul/motion.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string_view>

#include <fmt/format.h>

namespace haylane {
namespace {

constexpr double kSameM = 0.01;       // marks nearer than this are one
constexpr double kFenceGapM = 1.0;    // straight moves keep off fences
constexpr double kOverlapM2 = 100.0;  // pastures that share more lie in each other

struct Mark {
    double along_m = 0.0;
    int node = 0;
};
struct Side {
    int region = kOutside;
    int node = 0;
};

// A turning point of straight moves; piece and along are set on trails.
struct FieldPoint {
    int node = 0;
    int piece = -1;
    double along_m = 0.0;
    bool corner = false;
    bool joins = false;  // trails are joined from here at the best angle
};

class Builder {
  public:
    Builder(const Ranch& ranch, const TravelConditions& conditions, bool all_open)
        : ranch_(ranch),
          set_(ranch.settings),
          when_(conditions),
          all_open_(all_open),
          fences_(ranch),
          field_m_per_s_(travel_speed_m_per_s(std::nullopt, conditions.snow, ranch.settings)) {}

    TravelGraph build() {
        take_trails();
        join_crossings();
        snap_ends();
        sides_.resize(ranch_.gates.size());
        graph_.gates_of.resize(ranch_.pastures.size());
        for (std::size_t g = 0; g < ranch_.gates.size(); ++g) add_gate(g);
        for (const Yard& yard : ranch_.yards) add_yard(yard);
        graph_.pastures.resize(ranch_.pastures.size());
        for (std::size_t p = 0; p < ranch_.pastures.size(); ++p) add_pasture(p);
        link_marks();
        return std::move(graph_);
    }

  private:
    int add_node(Point at) {
        graph_.nodes.push_back(at);
        return static_cast<int>(graph_.nodes.size()) - 1;
    }
    [[nodiscard]] Point at(int node) const { return graph_.nodes[static_cast<std::size_t>(node)]; }
    void link(int a, int b) {
        if (a == b) return;
        TravelEdge edge;
        edge.a = a;
        edge.b = b;
        edge.length_m = distance_m(at(a), at(b));
        edge.speed_m_per_s = field_m_per_s_;
        graph_.edges.push_back(edge);
    }
    [[nodiscard]] double trail_speed(const TrailPiece& piece) const {
        const Trail& trail = ranch_[piece.trail];
        if (!trail.speed_m_per_s) return travel_speed_m_per_s(trail.surface, when_.snow, set_);
        const bool slow = when_.snow && trail.surface != Surface::paved;
        return *trail.speed_m_per_s * (slow ? set_.snow_speed_ratio : 1.0);
    }
    // The node at a distance along a piece, made if there is none.
    int mark(std::size_t piece, double along_m, Point where) {
        std::vector<Mark>& marks = marks_[piece];
        for (const Mark& m : marks)
            if (std::abs(m.along_m - along_m) < kSameM) return m.node;
        marks.push_back({along_m, add_node(where)});
        return marks.back().node;
    }

    void take_trails();
    void join_crossings();
    void cross(std::size_t a, std::size_t b);
    void snap_ends();
    void add_gate(std::size_t g);
    void add_yard(const Yard& yard);
    [[nodiscard]] double nearest_shut_trail_m(Point p) const;
    void guess_way(const Yard& yard, int node);
    void add_pasture(std::size_t p);
    [[nodiscard]] MultiPolygon free_ground(std::size_t p);
    [[nodiscard]] std::vector<FieldPoint> field_points(std::size_t p);
    [[nodiscard]] std::vector<FieldPoint> trail_points(std::size_t p, const FreeSpace& space) const;
    void enter(const FreeSpace& space, int node, double limit_m, std::vector<FieldPoint>& points);
    void join_trails(std::size_t p, const FieldPoint& from);
    void link_points(const FreeSpace& space, const std::vector<FieldPoint>& points);
    void link_marks();

    const Ranch& ranch_;
    const Settings& set_;
    const TravelConditions& when_;
    bool all_open_;
    Fences fences_;
    double field_m_per_s_;
    TravelGraph graph_;
    std::vector<Box> boxes_;                // of the pieces
    std::vector<std::vector<Mark>> marks_;  // of the pieces
    std::vector<std::vector<Side>> sides_;  // of the gates; empty when shut
    std::vector<int> yard_regions_;
};

void Builder::take_trails() {
    CutTrails cut = cut_trails(ranch_, fences_, when_, all_open_);
    graph_.pieces = std::move(cut.pieces);
    graph_.problems = std::move(cut.problems);
    marks_.resize(graph_.pieces.size());
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        const Polyline& path = graph_.pieces[i].path;
        boxes_.push_back(box_of(path));
        double along = 0.0;
        for (std::size_t k = 0; k < path.size(); ++k) {
            if (k > 0) along += distance_m(path[k - 1], path[k]);
            mark(i, along, path[k]);
        }
    }
}

void Builder::join_crossings() {
    for (std::size_t a = 0; a < graph_.pieces.size(); ++a)
        for (std::size_t b = a + 1; b < graph_.pieces.size(); ++b)
            if (graph_.pieces[a].region == graph_.pieces[b].region && boxes_[a].meets(boxes_[b]))
                cross(a, b);
}

void Builder::cross(std::size_t a, std::size_t b) {
    const Polyline& pa = graph_.pieces[a].path;
    const Polyline& pb = graph_.pieces[b].path;
    double along_a = 0.0;
    for (std::size_t i = 1; i < pa.size(); ++i) {
        Box box;
        box.add(pa[i - 1]);
        box.add(pa[i]);
        double along_b = 0.0;
        for (std::size_t j = 1; box.meets(boxes_[b]) && j < pb.size(); ++j) {
            if (const auto x = segment_crossing(pa[i - 1], pa[i], pb[j - 1], pb[j]))
                link(mark(a, along_a + distance_m(pa[i - 1], *x), *x),
                     mark(b, along_b + distance_m(pb[j - 1], *x), *x));
            along_b += distance_m(pb[j - 1], pb[j]);
        }
        along_a += distance_m(pa[i - 1], pa[i]);
    }
}

void Builder::snap_ends() {
    for (std::size_t a = 0; a < graph_.pieces.size(); ++a) {
        const TrailPiece& piece = graph_.pieces[a];
        for (const bool at_start : {true, false}) {
            if (!(at_start ? piece.first : piece.last)) continue;
            const Point end = at_start ? piece.path.front() : piece.path.back();
            const double along = at_start ? 0.0 : length_m(piece.path);
            for (std::size_t b = 0; b < graph_.pieces.size(); ++b) {
                if (a == b || graph_.pieces[b].region != piece.region) continue;
                if (!boxes_[b].grown_by(set_.trail_snap_m).contains(end)) continue;
                const Foot foot = nearest_foot(end, graph_.pieces[b].path);
                if (foot.away_m <= set_.trail_snap_m &&
                    fences_.clear(end, foot.at, std::nullopt, 0.0))
                    link(mark(a, along, end), mark(b, foot.along_m, foot.at));
            }
        }
    }
}

void Builder::add_gate(std::size_t g) {
    const Gate& gate = ranch_.gates[g];
    std::vector<Side>& sides = sides_[g];
    const bool open = all_open_ || !why_shut(gate, when_);
    bool on_fence = false;
    for (std::size_t p = 0; p < ranch_.pastures.size(); ++p) {
        if (fences_.pasture(static_cast<int>(p)).distance_to_edge_m(gate.at) > set_.gate_snap_m)
            continue;
        graph_.gates_of[p].push_back(GateId::at(g));
        on_fence = true;
        if (open) sides.push_back({static_cast<int>(p), add_node(gate.at)});
    }
    if (!on_fence) {
        graph_.problems.push_back({"gate_not_on_fence", Severity::warning, "gates, " + gate.name,
                                   fmt::format("Gate {} stands on no pasture's fence.", gate.name),
                                   "Move the gate onto the fence that it opens."});
    }
    if (!on_fence || !open) return;
    sides.push_back({kOutside, add_node(gate.at)});
    for (std::size_t i = 0; i < sides.size(); ++i)
        for (std::size_t j = i + 1; j < sides.size(); ++j) {
            TravelEdge edge;
            edge.a = sides[i].node;
            edge.b = sides[j].node;
            edge.gate_s = gate.open_s;
            edge.gate = GateId::at(g);
            graph_.edges.push_back(edge);
        }
    const double snap = std::max(set_.trail_snap_m, set_.gate_snap_m);
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        if (!boxes_[i].grown_by(snap).contains(gate.at)) continue;
        const Foot foot = nearest_foot(gate.at, graph_.pieces[i].path);
        if (foot.away_m > snap || !fences_.clear(foot.at, gate.at, gate.at, set_.gate_snap_m))
            continue;
        for (const Side& side : sides)
            if (side.region == graph_.pieces[i].region)
                link(mark(i, foot.along_m, foot.at), side.node);
    }
}

void Builder::add_yard(const Yard& yard) {
    const int node = add_node(yard.at);
    const int region = fences_.region_at(yard.at);
    graph_.yard_nodes.push_back(node);
    yard_regions_.push_back(region);
    bool joined = region != kOutside;
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        if (graph_.pieces[i].region != region) continue;
        const Foot foot = nearest_foot(yard.at, graph_.pieces[i].path);
        if (foot.away_m > set_.trail_snap_m || !fences_.clear(yard.at, foot.at, std::nullopt, 0.0))
            continue;
        link(node, mark(i, foot.along_m, foot.at));
        joined = true;
    }
    for (std::size_t g = 0; g < sides_.size(); ++g) {
        const Point gate = ranch_.gates[g].at;
        if (distance_m(gate, yard.at) > set_.trail_snap_m ||
            !fences_.clear(yard.at, gate, gate, set_.gate_snap_m))
            continue;
        for (const Side& side : sides_[g]) {
            if (side.region != region) continue;
            link(node, side.node);
            joined = true;
        }
    }
    if (!joined) guess_way(yard, node);
}

// A trail that is shut keeps its yard: nobody drives round it over open country.
double Builder::nearest_shut_trail_m(Point p) const {
    double nearest = std::numeric_limits<double>::infinity();
    for (const Trail& trail : ranch_.trails) {
        if (all_open_ || !why_shut(trail, when_)) continue;
        for (const Polyline& path : trail.path) nearest = std::min(nearest, distance_m(p, path));
    }
    return nearest;
}

// A yard with no trail near: straight to the nearest trail, and to gates nearer than that.
void Builder::guess_way(const Yard& yard, int node) {
    const double shut_m = nearest_shut_trail_m(yard.at);
    if (shut_m <= set_.trail_snap_m) return;
    double nearest = shut_m;
    bool found = false;
    std::size_t piece = 0;
    Foot best;
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        if (graph_.pieces[i].region != kOutside) continue;
        const Foot foot = nearest_foot(yard.at, graph_.pieces[i].path);
        if (foot.away_m >= nearest || !fences_.clear(yard.at, foot.at, std::nullopt, 0.0)) continue;
        nearest = foot.away_m;
        found = true;
        piece = i;
        best = foot;
    }
    std::vector<int> targets;
    if (found) targets.push_back(mark(piece, best.along_m, best.at));
    for (std::size_t g = 0; g < sides_.size(); ++g) {
        const Point gate = ranch_.gates[g].at;
        if (sides_[g].empty() || distance_m(gate, yard.at) >= nearest ||
            !fences_.clear(yard.at, gate, gate, set_.gate_snap_m))
            continue;
        targets.push_back(sides_[g].back().node);
    }
    for (const int target : targets) {
        link(node, target);
        graph_.edges.back().length_m *= set_.no_way_factor_ratio;
        graph_.edges.back().guessed = true;
    }
    if (ranch_.trails.empty() && ranch_.gates.empty()) return;
    const std::string_view text =
        targets.empty() ? "No trail or gate can be reached from yard {}."
                        : "No trail or gate is near yard {}; its way to the nearest one is a "
                          "straight line, not checked.";
    graph_.problems.push_back({"yard_off_trail", Severity::warning, "yards, " + yard.name,
                               fmt::format(fmt::runtime(text), yard.name),
                               "Draw the trail that is driven from the yard."});
}

MultiPolygon Builder::free_ground(std::size_t p) {
    const Result<MultiPolygon> ground = drivable_ground(ranch_, PastureId::at(p), when_.thaw);
    if (!ground) {
        graph_.problems.push_back({ground.error().code, Severity::error,
                                   "pastures, " + ranch_.pastures[p].name, ground.error().what,
                                   ground.error().remedy});
        return {};
    }
    MultiPolygon free = *ground;
    const MultiPolygon& shape = ranch_.pastures[p].shape;
    for (std::size_t q = 0; q < ranch_.pastures.size(); ++q) {
        const MultiPolygon& other = ranch_.pastures[q].shape;
        if (q == p || !box_of(shape).meets(box_of(other))) continue;
        const Result<MultiPolygon> shared = intersect(shape, other);
        if (!shared || area_m2(*shared) < kOverlapM2 || area_m2(other) > area_m2(shape)) continue;
        const Result<MultiPolygon> kept = buffer_shape(other, kFenceGapM);
        if (!kept) continue;
        if (Result<MultiPolygon> rest = subtract(free, *kept)) free = std::move(*rest);
    }
    return free;
}

void Builder::enter(const FreeSpace& space, int node, double limit_m,
                    std::vector<FieldPoint>& points) {
    const std::optional<Point> entry = entry_point(space, at(node), limit_m);
    if (!entry) return;
    FieldPoint point;
    point.node = *entry == at(node) ? node : add_node(*entry);
    point.joins = true;
    link(node, point.node);
    points.push_back(point);
}

std::vector<FieldPoint> Builder::trail_points(std::size_t p, const FreeSpace& space) const {
    std::vector<FieldPoint> points;
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        const TrailPiece& piece = graph_.pieces[i];
        if (piece.region != static_cast<int>(p)) continue;
        const double total = length_m(piece.path);
        for (const Mark& m : marks_[i]) {
            if (!space.region().contains(at(m.node))) continue;
            const bool end = m.along_m < kSameM || total - m.along_m < kSameM;
            points.push_back({m.node, static_cast<int>(i), m.along_m, false, end});
        }
    }
    return points;
}

std::vector<FieldPoint> Builder::field_points(std::size_t p) {
    const FreeSpace& space = graph_.pastures[p].space;
    std::vector<FieldPoint> points;
    for (const Point corner : space.corners())
        points.push_back({add_node(corner), -1, 0.0, true, true});
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

void Builder::join_trails(std::size_t p, const FieldPoint& from) {
    const FreeSpace& space = graph_.pastures[p].space;
    const Point start = at(from.node);
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        const TrailPiece& piece = graph_.pieces[i];
        if (piece.region != static_cast<int>(p) || from.piece == static_cast<int>(i)) continue;
        const double speed = trail_speed(piece);
        double along = 0.0;
        for (std::size_t k = 1; k < piece.path.size(); ++k) {
            const Point a = piece.path[k - 1];
            const Point b = piece.path[k];
            const double piece_m = distance_m(a, b);
            for (const double d : leaving_points_m(a, b, start, field_m_per_s_, speed)) {
                const Point join = lerp(a, b, d / piece_m);
                if (space.sees(start, join)) link(from.node, mark(i, along + d, join));
            }
            along += piece_m;
        }
    }
}

void Builder::link_points(const FreeSpace& space, const std::vector<FieldPoint>& points) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        for (std::size_t j = i + 1; j < points.size(); ++j) {
            const FieldPoint& a = points[i];
            const FieldPoint& b = points[j];
            if (a.corner && b.corner) continue;
            const double field_s = distance_m(at(a.node), at(b.node)) / field_m_per_s_;
            if (a.piece >= 0 && a.piece == b.piece) {
                const TrailPiece& piece = graph_.pieces[static_cast<std::size_t>(a.piece)];
                if (std::abs(a.along_m - b.along_m) / trail_speed(piece) <= field_s) continue;
            }
            if (space.sees(at(a.node), at(b.node))) link(a.node, b.node);
        }
    }
}

void Builder::add_pasture(std::size_t p) {
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

void Builder::link_marks() {
    graph_.piece_nodes.resize(graph_.pieces.size());
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
        const TrailPiece& piece = graph_.pieces[i];
        std::vector<Mark>& marks = marks_[i];
        std::sort(marks.begin(), marks.end(),
                  [](const Mark& a, const Mark& b) { return a.along_m < b.along_m; });
        for (std::size_t k = 0; k < marks.size(); ++k) {
            graph_.piece_nodes[i].push_back(marks[k].node);
            if (k == 0) continue;
            TravelEdge edge;
            edge.a = marks[k - 1].node;
            edge.b = marks[k].node;
            edge.length_m = distance_m(at(edge.a), at(edge.b));
            edge.speed_m_per_s = trail_speed(piece);
            edge.surface = ranch_[piece.trail].surface;
            edge.trail = piece.trail;
            if (piece.region != kOutside)
                graph_.pastures[static_cast<std::size_t>(piece.region)].trail_edges.push_back(
                    static_cast<int>(graph_.edges.size()));
            graph_.edges.push_back(edge);
        }
    }
}

}  // namespace

TravelGraph build_travel_graph(const Ranch& ranch, const TravelConditions& conditions,
                               bool all_open) {
    return Builder(ranch, conditions, all_open).build();
}

std::vector<double> leaving_points_m(Point a, Point b, Point p, double field_m_per_s,
                                     double trail_m_per_s) {
    const double length = distance_m(a, b);
    if (length <= 0.0) return {};
    const double foot = dot(p - a, b - a) / length;
    std::vector<double> found{foot};
    if (trail_m_per_s > field_m_per_s) {
        const double away = std::abs(cross(b - a, p - a)) / length;
        const double sine = field_m_per_s / trail_m_per_s;
        const double shift = away * sine / std::sqrt(1.0 - sine * sine);
        found.push_back(foot - shift);
        found.push_back(foot + shift);
    }
    std::erase_if(found, [&](double d) { return d <= kSameM || d >= length - kSameM; });
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
