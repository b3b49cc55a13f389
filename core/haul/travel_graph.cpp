// Trails are marked at their vertices and wherever something joins them, then linked mark to mark.
// Gates get one node for each side of their fence, so that every passage costs its time.
#include "core/haul/travel_graph.h"

#include "core/haul/travel_graph_builder.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string_view>

#include <fmt/format.h>

namespace haylane {

void TravelGraphBuilder::take_trails() {
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

void TravelGraphBuilder::join_crossings() {
    for (std::size_t a = 0; a < graph_.pieces.size(); ++a)
        for (std::size_t b = a; b < graph_.pieces.size(); ++b)
            if (graph_.pieces[a].region == graph_.pieces[b].region && boxes_[a].meets(boxes_[b]))
                cross(a, b);
}

void TravelGraphBuilder::cross(std::size_t a, std::size_t b) {
    const Polyline& pa = graph_.pieces[a].path;
    const Polyline& pb = graph_.pieces[b].path;
    double along_a = 0.0;
    for (std::size_t i = 1; i < pa.size(); ++i) {
        Box box;
        box.add(pa[i - 1]);
        box.add(pa[i]);
        double along_b = 0.0;
        for (std::size_t j = 1; box.meets(boxes_[b]) && j < pb.size(); ++j) {
            // Of a trail with itself each pair once, and not a stretch with the next.
            const bool asked = a != b || j > i + 1;
            if (const auto x =
                    asked ? segment_crossing(pa[i - 1], pa[i], pb[j - 1], pb[j]) : std::nullopt)
                link(mark(a, along_a + distance_m(pa[i - 1], *x), *x),
                     mark(b, along_b + distance_m(pb[j - 1], *x), *x));
            along_b += distance_m(pb[j - 1], pb[j]);
        }
        along_a += distance_m(pa[i - 1], pa[i]);
    }
}

void TravelGraphBuilder::snap_ends() {
    for (std::size_t a = 0; a < graph_.pieces.size(); ++a) {
        const TrailPiece& piece = graph_.pieces[a];
        if (piece.first) snap_end(a, piece.path.front(), 0.0);
        if (piece.last) snap_end(a, piece.path.back(), length_m(piece.path));
    }
}

void TravelGraphBuilder::snap_end(std::size_t a, Point end, double along_m) {
    for (std::size_t b = 0; b < graph_.pieces.size(); ++b) {
        if (a == b || graph_.pieces[b].region != graph_.pieces[a].region) continue;
        if (!boxes_[b].grown_by(set_.trail_snap_m).contains(end)) continue;
        const Foot foot = nearest_foot(end, graph_.pieces[b].path);
        if (foot.away_m <= set_.trail_snap_m && fences_.clear(end, foot.at, std::nullopt, 0.0))
            link(mark(a, along_m, end), mark(b, foot.along_m, foot.at));
    }
}

void TravelGraphBuilder::add_gate(std::size_t g) {
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
            edge.gate_units = worth_.of_gate(gate.open_s);
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

void TravelGraphBuilder::add_yard(const Yard& yard) {
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
double TravelGraphBuilder::nearest_shut_trail_m(Point p) const {
    double nearest = std::numeric_limits<double>::infinity();
    for (const Trail& trail : ranch_.trails) {
        if (all_open_ || !why_shut(trail, when_)) continue;
        for (const Polyline& path : trail.path) nearest = std::min(nearest, distance_m(p, path));
    }
    return nearest;
}

// A yard with no trail near: straight to the nearest trail, and to gates nearer than that.
void TravelGraphBuilder::guess_way(const Yard& yard, int node) {
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

void TravelGraphBuilder::link_marks() {
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
            edge.meters_per_unit = trail_per_unit(piece);
            edge.surface = ranch_[piece.trail].surface;
            edge.trail = piece.trail;
            if (piece.region != kOutside)
                graph_.pastures[static_cast<std::size_t>(piece.region)].trail_edges.push_back(
                    static_cast<int>(graph_.edges.size()));
            graph_.edges.push_back(edge);
        }
    }
}

TravelGraph build_travel_graph(const Ranch& ranch, const TravelConditions& conditions,
                               bool all_open) {
    return TravelGraphBuilder(ranch, conditions, all_open).build();
}

}  // namespace haylane
