#pragma once
// A line on the ground as a list of points, and the measures of it that driving needs.
// Frame: ranch frame, metres. Repeated points are allowed and have no effect on measures.

#include "core/geometry/point.h"

#include <limits>
#include <optional>
#include <vector>

namespace haylane {

using Polyline = std::vector<Point>;
using MultiPolyline = std::vector<Polyline>;

// Sum of the pieces' lengths; 0 for fewer than two points.
[[nodiscard]] double length_m(const Polyline& line);
// Point at `distance` from the start, clamped to the ends; the line must not be empty.
[[nodiscard]] Point point_at(const Polyline& line, double distance);
// Direction of travel (clockwise from north) of the piece at `distance`, clamped to the ends.
[[nodiscard]] double azimuth_at(const Polyline& line, double distance);
// The part between two distances from the start (clamped; from <= to); at least two points when the
// part has a length.
[[nodiscard]] Polyline part_of(const Polyline& line, double from, double to);
// The same line driven the other way.
[[nodiscard]] Polyline reversed(Polyline line);
// Same course with vertices at most `step` apart, evenly on each piece; old vertices are kept.
[[nodiscard]] Polyline densified(const Polyline& line, double step);
// Vertices every `step` along the line (the last piece may be shorter): old vertices are NOT kept.
[[nodiscard]] Polyline resampled(const Polyline& line, double step);
// Greatest distance of a vertex from the straight line between the ends (the bow).
[[nodiscard]] double bow_m(const Polyline& line);
// Greatest Menger curvature (1/m) over consecutive vertex triples; 0 for fewer than three points.
// Reliable for lines resampled at an even step.
[[nodiscard]] double max_curvature_per_m(const Polyline& line);
// Least distance from p to the line.
[[nodiscard]] double distance_m(Point p, const Polyline& line);
// Least distance between two lines, 0 where they cross; `cap` when they are at least that far apart
// or one has no points. Where it is below `floor` some distance below that may come back instead.
// Cost: pairs of pieces whose boxes come nearer than the least so far.
[[nodiscard]] double distance_m(const Polyline& a, const Polyline& b,
                                double cap = std::numeric_limits<double>::infinity(),
                                double floor = 0.0);
[[nodiscard]] Box box_of(const Polyline& line);
[[nodiscard]] Box box_of(Point a, Point b);
// Whether two lines meet anywhere (ends included); pieces that lie in one line do not count. Cost:
// pairs of pieces whose boxes meet.
[[nodiscard]] bool lines_cross(const Polyline& a, const Polyline& b);

// Where p projects on the line: the nearest point, its distance from the start, and from p.
struct Foot {
    Point at;
    double along_m = 0.0;
    double away_m = 0.0;
};
// The line must not be empty.
[[nodiscard]] Foot nearest_foot(Point p, const Polyline& line);
// The point of segment a-b nearest to p.
[[nodiscard]] Point nearest_on_segment(Point p, Point a, Point b);
// Where segments a-b and c-d cross (ends included); nullopt if they do not or are parallel.
[[nodiscard]] std::optional<Point> segment_crossing(Point a, Point b, Point c, Point d);

}  // namespace haylane
