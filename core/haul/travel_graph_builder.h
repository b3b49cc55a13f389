#pragma once
// Private to core/haul: the steps that make a TravelGraph. travel_graph.cpp has trails, gates and
// yards, pasture_ways.cpp the moves inside pastures. One builder makes one graph.

#include "core/haul/motion.h"
#include "core/haul/travel_graph.h"
#include "core/haul/way_worth.h"

#include <optional>
#include <utility>
#include <vector>

namespace haylane {

inline constexpr double kSameM = 0.01;     // marks nearer than this are one
inline constexpr double kFenceGapM = 1.0;  // straight moves keep off fences

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
    // At a bend of a trail: unit directions before and after it.
    std::optional<std::pair<Point, Point>> bend;
};

class TravelGraphBuilder {
  public:
    TravelGraphBuilder(const Ranch& ranch, const TravelConditions& conditions, bool all_open)
        : ranch_(ranch),
          set_(ranch.settings),
          when_(conditions),
          all_open_(all_open),
          fences_(ranch),
          worth_(ranch.settings, conditions),
          field_m_per_s_(travel_speed_m_per_s(std::nullopt, conditions.snow, ranch.settings)),
          field_per_unit_(worth_.meters_per_unit(std::nullopt, field_m_per_s_)) {}

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
        edge.meters_per_unit = field_per_unit_;
        graph_.edges.push_back(edge);
    }
    [[nodiscard]] double trail_speed(const TrailPiece& piece) const {
        const Trail& trail = ranch_[piece.trail];
        if (!trail.speed_m_per_s) return travel_speed_m_per_s(trail.surface, when_.snow, set_);
        const bool slow = when_.snow && trail.surface != Surface::paved;
        return *trail.speed_m_per_s * (slow ? set_.snow_speed_ratio : 1.0);
    }
    [[nodiscard]] double trail_per_unit(const TrailPiece& piece) const {
        return worth_.meters_per_unit(ranch_[piece.trail].surface, trail_speed(piece));
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
    void snap_end(std::size_t a, Point end, double along_m);
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
    WayWorth worth_;
    double field_m_per_s_;
    double field_per_unit_;
    TravelGraph graph_;
    std::vector<Box> boxes_;                // of the pieces
    std::vector<std::vector<Mark>> marks_;  // of the pieces
    std::vector<std::vector<Side>> sides_;  // of the gates; empty when shut
    std::vector<int> yard_regions_;
};

}  // namespace haylane
