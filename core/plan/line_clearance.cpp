// Segments are passed over by their boxes first; two segments that do not cross are nearest at an
// end of one of them.
#include "core/plan/line_clearance.h"

#include <algorithm>

namespace haylane {

namespace {

double to_segment_m(Point p, Point a, Point b) {
    const Point d = b - a;
    const double square = dot(d, d);
    const double t = square > 0.0 ? std::clamp(dot(p - a, d) / square, 0.0, 1.0) : 0.0;
    return distance_m(p, a + d * t);
}

double between_segments_m(Point a, Point b, Point c, Point d) {
    if (segment_crossing(a, b, c, d)) return 0.0;
    return std::min({to_segment_m(a, c, d), to_segment_m(b, c, d), to_segment_m(c, a, b),
                     to_segment_m(d, a, b)});
}

Box segment_box(const Polyline& line, std::size_t s) {
    Box box;
    box.add(line[s]);
    box.add(line[std::min(s + 1, line.size() - 1)]);
    return box;
}

std::size_t segments(const Polyline& line) { return std::max<std::size_t>(line.size(), 2) - 1; }

}  // namespace

double capped_distance_m(const Polyline& a, const Polyline& b, double cap_m) {
    if (a.empty() || b.empty()) return cap_m;
    const Box all_b = box_of(b);
    double best = cap_m;
    for (std::size_t s = 0; s < segments(a); ++s) {
        const Box near_a = segment_box(a, s).grown_by(best);
        if (!near_a.meets(all_b)) continue;
        for (std::size_t t = 0; t < segments(b); ++t) {
            if (!near_a.meets(segment_box(b, t))) continue;
            best = std::min(best, between_segments_m(a[s], a[std::min(s + 1, a.size() - 1)], b[t],
                                                     b[std::min(t + 1, b.size() - 1)]));
        }
    }
    return best;
}

Clearance clearance(const Polyline& a, const Polyline& b, double spacing_m) {
    // A hair of slack, so that lines laid exactly one spacing apart are clear.
    const double slack = 1e-9 * spacing_m;
    const double away = capped_distance_m(a, b, spacing_m);
    if (away >= spacing_m - slack) return Clearance::clear;
    return away >= 0.5 * spacing_m - slack ? Clearance::near : Clearance::touching;
}

}  // namespace haylane
