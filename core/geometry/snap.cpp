#include "core/geometry/snap.h"

namespace haylane {

Point snapped(Point p, const MultiPolyline& lines, double within_m) {
    Point corner = p;
    Point edge = p;
    double to_corner = within_m;
    double to_edge = within_m;
    for (const Polyline& line : lines) {
        for (std::size_t i = 0; i < line.size(); ++i) {
            if (distance_m(p, line[i]) <= to_corner) {
                to_corner = distance_m(p, line[i]);
                corner = line[i];
            }
            if (i == 0) continue;
            const Point foot = nearest_on_segment(p, line[i - 1], line[i]);
            if (distance_m(p, foot) <= to_edge) {
                to_edge = distance_m(p, foot);
                edge = foot;
            }
        }
    }
    return corner == p ? edge : corner;
}

}  // namespace haylane
