// One Dijkstra (1959) a yard over the travel graph. A query takes the least time over the pasture's
// nodes and over points of its trails at the best leaving angle: bounds first, in rising order,
// sight tests only until one holds.
#include "core/haul/travel_map.h"

#include "core/base/units.h"
#include "core/haul/motion.h"
#include "core/haul/travel_graph.h"
#include "core/haul/way_worth.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>
#include <fmt/format.h>

namespace haylane {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

struct EdgeData {
    double units = 0.0;
    int index = 0;
};
using Network = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS,
                                      boost::no_property, EdgeData>;

// The least of what ways are chosen by, from one yard, and the edge by which each node is reached
// (-1 = none).
struct YardWays {
    std::vector<double> units;
    std::vector<int> by_edge;
};

Network make_network(const TravelGraph& graph) {
    Network network(graph.nodes.size());
    for (std::size_t i = 0; i < graph.edges.size(); ++i) {
        const TravelEdge& edge = graph.edges[i];
        boost::add_edge(static_cast<std::size_t>(edge.a), static_cast<std::size_t>(edge.b),
                        EdgeData{edge.units(), static_cast<int>(i)}, network);
    }
    return network;
}

YardWays least_ways(const Network& network, int start) {
    YardWays out;
    const std::size_t count = boost::num_vertices(network);
    std::vector<Network::edge_descriptor> edges(count);
    out.units.assign(count, kInfinity);
    out.by_edge.assign(count, -1);
    boost::dijkstra_shortest_paths(
        network, static_cast<std::size_t>(start),
        boost::weight_map(boost::get(&EdgeData::units, network))
            .distance_map(boost::make_iterator_property_map(
                out.units.begin(), boost::get(boost::vertex_index, network)))
            .distance_inf(kInfinity)
            .visitor(boost::make_dijkstra_visitor(boost::record_edge_predecessors(
                boost::make_iterator_property_map(edges.begin(),
                                                  boost::get(boost::vertex_index, network)),
                boost::on_edge_relaxed()))));
    for (std::size_t v = 0; v < count; ++v)
        if (static_cast<int>(v) != start && std::isfinite(out.units[v]))
            out.by_edge[v] = network[edges[v]].index;
    return out;
}

// The end of a way: from a node straight to the place, or along part of a trail edge first.
struct Finish {
    double units = kInfinity;
    int node = -1;
    int trail_edge = -1;
    Point leave;  // where the trail is left
};

std::string length_text(double meters, const Settings& settings) {
    if (settings.units == "metric") return fmt::format("{:.0f} m", meters);
    return fmt::format("{:.0f} ft", meters / units::kMetersPerFoot);
}

void add_via(Route& route, const std::string& name) {
    if (route.via.empty() || route.via.back() != name) route.via.push_back(name);
}

}  // namespace

struct TravelMap::Impl {
    const Ranch* ranch;
    TravelConditions conditions;
    double field_m_per_s;
    WayWorth worth;
    double field_per_unit;
    bool no_ways;  // neither gates nor trails are drawn
    TravelGraph graph;
    std::vector<YardWays> yards;

    Impl(const Ranch& r, const TravelConditions& when, bool all_open)
        : ranch(&r),
          conditions(when),
          field_m_per_s(travel_speed_m_per_s(std::nullopt, when.snow, r.settings)),
          worth(r.settings, when),
          field_per_unit(worth.meters_per_unit(std::nullopt, field_m_per_s)),
          no_ways(r.gates.empty() && r.trails.empty()),
          graph(build_travel_graph(r, when, all_open)) {
        const Network network = make_network(graph);
        for (const int node : graph.yard_nodes) yards.push_back(least_ways(network, node));
        if (no_ways) {
            graph.problems.push_back(
                {"way_not_checked", Severity::warning, "gates, trails",
                 "No gates or trails are drawn; ways are straight lines, not checked.",
                 "Draw the gates and the trails that are driven."});
        }
    }

    [[nodiscard]] Point at(int node) const { return graph.nodes[static_cast<std::size_t>(node)]; }
    [[nodiscard]] const TravelEdge& edge(int index) const {
        return graph.edges[static_cast<std::size_t>(index)];
    }
    [[nodiscard]] double guess_m(YardId yard, Point to) const {
        return distance_m((*ranch)[yard].at, to) * ranch->settings.no_way_factor_ratio;
    }
    [[nodiscard]] std::optional<Point> entry(PastureId pasture, Point to) const;
    [[nodiscard]] std::vector<Finish> bounds(const YardWays& times, const PastureWays& ways,
                                             Point to) const;
    [[nodiscard]] Finish find(YardId yard, PastureId pasture, Point to) const;
    [[nodiscard]] bool reaches(YardId yard, PastureId pasture) const;
    [[nodiscard]] Route unchecked_route(YardId yard, Point to) const;
    [[nodiscard]] Route follow(YardId yard, const Finish& finish, Point entry, Point to) const;
    void drive(Route& route, const TravelEdge& along, Point from, Point to, double length) const;
    [[nodiscard]] std::string shut_on_the_way(YardId yard, PastureId pasture, sys_days day) const;
    [[nodiscard]] std::string gap_before(YardId yard, PastureId pasture) const;
};

std::optional<Point> TravelMap::Impl::entry(PastureId pasture, Point to) const {
    return entry_point(graph.pastures[pasture.index()].space, to, ranch->settings.trail_snap_m);
}

std::vector<Finish> TravelMap::Impl::bounds(const YardWays& times, const PastureWays& ways,
                                            Point to) const {
    std::vector<Finish> found;
    found.reserve(ways.nodes.size());
    for (const int node : ways.nodes) {
        const double start = times.units[static_cast<std::size_t>(node)];
        if (std::isfinite(start))
            found.push_back({start + distance_m(at(node), to) / field_per_unit, node, -1, {}});
    }
    for (const int index : ways.trail_edges) {
        const TravelEdge& e = edge(index);
        const double ta = times.units[static_cast<std::size_t>(e.a)];
        const double tb = times.units[static_cast<std::size_t>(e.b)];
        if (!std::isfinite(ta)) continue;
        for (const double d :
             leaving_points_m(at(e.a), at(e.b), to, field_per_unit, e.meters_per_unit)) {
            const double from_a = ta + d / e.meters_per_unit;
            const double from_b = tb + (e.length_m - d) / e.meters_per_unit;
            const Point leave = lerp(at(e.a), at(e.b), d / e.length_m);
            found.push_back({std::min(from_a, from_b) + distance_m(leave, to) / field_per_unit,
                             from_a <= from_b ? e.a : e.b, index, leave});
        }
    }
    return found;
}

Finish TravelMap::Impl::find(YardId yard, PastureId pasture, Point to) const {
    const PastureWays& ways = graph.pastures[pasture.index()];
    std::vector<Finish> heap = bounds(yards[yard.index()], ways, to);
    const auto later = [](const Finish& a, const Finish& b) { return a.units > b.units; };
    std::make_heap(heap.begin(), heap.end(), later);
    while (!heap.empty()) {
        std::pop_heap(heap.begin(), heap.end(), later);
        const Finish best = heap.back();
        if (ways.space.sees(best.trail_edge >= 0 ? best.leave : at(best.node), to)) return best;
        heap.pop_back();
    }
    return {};
}

bool TravelMap::Impl::reaches(YardId yard, PastureId pasture) const {
    const std::vector<int>& nodes = graph.pastures[pasture.index()].nodes;
    return std::any_of(nodes.begin(), nodes.end(), [&](int node) {
        return std::isfinite(yards[yard.index()].units[static_cast<std::size_t>(node)]);
    });
}

Route TravelMap::Impl::unchecked_route(YardId yard, Point to) const {
    Route route;
    route.checked = false;
    TravelEdge along;
    along.speed_m_per_s = field_m_per_s;
    drive(route, along, (*ranch)[yard].at, to, guess_m(yard, to));
    return route;
}

// Adds one straight move, to the last part where the ground is the same.
void TravelMap::Impl::drive(Route& route, const TravelEdge& along, Point from, Point to,
                            double length) const {
    if (along.gate.valid()) {
        route.gate_s += along.gate_s;
        route.last_gate = along.gate;
        route.via.push_back((*ranch)[along.gate].name);
    }
    if (along.trail.valid()) add_via(route, (*ranch)[along.trail].name);
    if (along.guessed) route.checked = false;
    if (length <= 0.0) return;
    const bool same = !route.parts.empty() && !along.guessed &&
                      route.parts.back().surface == along.surface &&
                      route.parts.back().speed_m_per_s == along.speed_m_per_s;
    if (!same) route.parts.push_back({{from}, along.surface, 0.0, along.speed_m_per_s});
    RoutePart& part = route.parts.back();
    part.path.push_back(to);
    part.length_m += length;
    route.length_m += length;
    route.drive_s += length / along.speed_m_per_s;
}

Route TravelMap::Impl::follow(YardId yard, const Finish& finish, Point entry, Point to) const {
    const std::vector<int>& by_edge = yards[yard.index()].by_edge;
    std::vector<int> chain;
    int node = finish.node;
    while (by_edge[static_cast<std::size_t>(node)] >= 0) {
        const int index = by_edge[static_cast<std::size_t>(node)];
        chain.push_back(index);
        node = edge(index).a == node ? edge(index).b : edge(index).a;
    }
    Route route;
    for (auto it = chain.rbegin(); it != chain.rend(); ++it) {
        const TravelEdge& e = edge(*it);
        const int next = e.a == node ? e.b : e.a;
        drive(route, e, at(node), at(next), e.length_m);
        node = next;
    }
    Point last = at(node);
    if (finish.trail_edge >= 0) {
        drive(route, edge(finish.trail_edge), last, finish.leave, distance_m(last, finish.leave));
        last = finish.leave;
    }
    TravelEdge field;
    field.speed_m_per_s = field_m_per_s;
    drive(route, field, last, entry, distance_m(last, entry));
    drive(route, field, entry, to, distance_m(entry, to));
    if (route.parts.empty()) route.parts.push_back({{to, to}, std::nullopt, 0.0, field_m_per_s});
    return route;
}

std::string TravelMap::Impl::shut_on_the_way(YardId yard, PastureId pasture, sys_days day) const {
    TravelConditions asked = conditions;
    asked.date = day;
    const Impl open(*ranch, conditions, true);
    if (!open.reaches(yard, pasture)) return {};
    const YardWays& times = open.yards[yard.index()];
    Finish nearest;
    for (const int node : open.graph.pastures[pasture.index()].nodes) {
        const double units = times.units[static_cast<std::size_t>(node)];
        if (units < nearest.units) nearest = {units, node, -1, {}};
    }
    const Route way = open.follow(yard, nearest, open.at(nearest.node), open.at(nearest.node));
    for (const std::string& name : way.via) {
        for (const Gate& gate : ranch->gates)
            if (const auto why = why_shut(gate, asked); why && gate.name == name)
                return fmt::format("Gate {} {}.", name, *why);
        for (const Trail& trail : ranch->trails)
            if (const auto why = why_shut(trail, asked); why && trail.name == name)
                return fmt::format("Trail {} {}.", name, *why);
    }
    return {};
}

// The reached trail that comes nearest to a gate of the pasture.
std::string TravelMap::Impl::gap_before(YardId yard, PastureId pasture) const {
    const std::vector<double>& times = yards[yard.index()].units;
    double least = kInfinity;
    std::string text;
    for (const GateId gate : graph.gates_of[pasture.index()]) {
        for (std::size_t i = 0; i < graph.pieces.size(); ++i) {
            if (!std::isfinite(times[static_cast<std::size_t>(graph.piece_nodes[i].front())]))
                continue;
            const double gap = nearest_foot((*ranch)[gate].at, graph.pieces[i].path).away_m;
            if (gap >= least) continue;
            least = gap;
            text = fmt::format("Trail {} stops {} short of gate {}.",
                               (*ranch)[graph.pieces[i].trail].name,
                               length_text(gap, ranch->settings), (*ranch)[gate].name);
        }
    }
    return text;
}

TravelMap::TravelMap(const Ranch& ranch, const TravelConditions& conditions)
    : impl_(std::make_unique<Impl>(ranch, conditions, false)) {}
TravelMap::~TravelMap() = default;
TravelMap::TravelMap(TravelMap&&) noexcept = default;
TravelMap& TravelMap::operator=(TravelMap&&) noexcept = default;

std::optional<Route> TravelMap::route(YardId yard, PastureId pasture, Point to) const {
    if (impl_->no_ways) return impl_->unchecked_route(yard, to);
    const std::optional<Point> entry = impl_->entry(pasture, to);
    if (!entry) return std::nullopt;
    const Finish finish = impl_->find(yard, pasture, *entry);
    if (finish.node < 0) return std::nullopt;
    return impl_->follow(yard, finish, *entry, to);
}

double TravelMap::time_s(YardId yard, PastureId pasture, Point to) const {
    if (impl_->no_ways) return impl_->guess_m(yard, to) / impl_->field_m_per_s;
    const std::optional<Point> entry = impl_->entry(pasture, to);
    if (!entry) return kInfinity;
    const Finish finish = impl_->find(yard, pasture, *entry);
    if (impl_->worth.is_time() || finish.node < 0)
        return finish.units + distance_m(*entry, to) / impl_->field_m_per_s;
    return impl_->follow(yard, finish, *entry, to).time_s();
}

std::string TravelMap::why_not(YardId yard, PastureId pasture, sys_days day) const {
    const std::string& name = (*impl_->ranch)[pasture].name;
    if (impl_->no_ways || impl_->reaches(yard, pasture))
        return fmt::format(
            "{} can be reached; what cannot is ground that may not be driven, or "
            "is cut off by it.",
            name);
    if (std::string shut = impl_->shut_on_the_way(yard, pasture, day); !shut.empty()) return shut;
    if (impl_->graph.gates_of[pasture.index()].empty())
        return fmt::format("No gate is drawn on the fence of {}.", name);
    if (std::string gap = impl_->gap_before(yard, pasture); !gap.empty()) return gap;
    return fmt::format("No trail leads from {} to a gate of {}.", (*impl_->ranch)[yard].name, name);
}

std::vector<GateId> TravelMap::gates_of(PastureId pasture) const {
    return impl_->graph.gates_of[pasture.index()];
}

const FreeSpace& TravelMap::space(PastureId pasture) const {
    return impl_->graph.pastures[pasture.index()].space;
}

double TravelMap::field_m_per_s() const { return impl_->field_m_per_s; }

const Problems& TravelMap::problems() const { return impl_->graph.problems; }

Polyline Route::path() const {
    Polyline line;
    for (const RoutePart& part : parts)
        for (const Point p : part.path)
            if (line.empty() || !(line.back() == p)) line.push_back(p);
    return line;
}

Route reversed(const Route& route) {
    Route back = route;
    std::reverse(back.parts.begin(), back.parts.end());
    for (RoutePart& part : back.parts) std::reverse(part.path.begin(), part.path.end());
    std::reverse(back.via.begin(), back.via.end());
    return back;
}

}  // namespace haylane
