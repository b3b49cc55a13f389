#pragma once
// The network behind TravelMap: nodes on trails, at gates (one for each side of the fence), yards
// and turning points inside pastures; straight edges with times. Built once, then read only.

#include "core/geometry/visibility.h"
#include "core/haul/fences.h"

#include <optional>
#include <vector>

namespace haylane {

struct TravelEdge {
    int a = 0;
    int b = 0;
    double length_m = 0.0;
    double speed_m_per_s = 0.0;
    double meters_per_unit = 0.0;  // of what ways are chosen by (WayWorth)
    double gate_s = 0.0;
    double gate_units = 0.0;
    std::optional<Surface> surface;  // nullopt = off trails
    TrailId trail;
    GateId gate;
    bool guessed = false;  // a straight line nobody drew, longer by the no-way factor
    [[nodiscard]] double units() const {
        return gate_units + (length_m > 0.0 ? length_m / meters_per_unit : 0.0);
    }
};

// What a query inside one pasture needs.
struct PastureWays {
    FreeSpace space;
    std::vector<int> nodes;        // from where straight moves start
    std::vector<int> trail_edges;  // edges on trails inside, which may be left anywhere
};

struct TravelGraph {
    std::vector<Point> nodes;
    std::vector<TravelEdge> edges;
    std::vector<int> yard_nodes;
    std::vector<PastureWays> pastures;
    std::vector<std::vector<GateId>> gates_of;
    std::vector<TrailPiece> pieces;
    std::vector<std::vector<int>> piece_nodes;  // along each piece
    Problems problems;
};

// `all_open` ignores what is shut, to find out why a place cannot be reached.
[[nodiscard]] TravelGraph build_travel_graph(const Ranch& ranch, const TravelConditions& conditions,
                                             bool all_open);

// Points of the straight trail piece a-b at which to leave it for p: the foot of the perpendicular,
// and those at asin(field / trail) from it, as distances from a; none off the piece. Meters a unit
// of what ways are chosen by: speeds, for least time.
[[nodiscard]] std::vector<double> leaving_points_m(Point a, Point b, Point p, double field_per_unit,
                                                   double trail_per_unit);
// The nearest place at which p can enter the free area, at most `limit_m` away; p itself if it is
// inside.
[[nodiscard]] std::optional<Point> entry_point(const FreeSpace& space, Point p, double limit_m);

}  // namespace haylane
