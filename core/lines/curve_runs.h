#pragma once
// Loads laid along families of curves: levels of curves side by side (rings beside a boundary,
// contours of terrain), made fit to drive and cut into runs, which take the loads end to end and
// level beside level. Ranch frame, metres.

#include "core/lines/candidate_lines.h"

#include <vector>

namespace haylane {

// Part of a curve that may be driven, in the curve's direction: points half a metre apart.
struct Run {
    Polyline path;
    double length_m = 0.0;  // room for lines
    Box box;
};

using Level = std::vector<Run>;

struct RunRules {
    double line_radius_m = 0.0;  // least radius of a curve
    double rounding_m = 2.0;     // half the width of the moving average that takes kinks out
    double spacing_m = 12.0;     // the ends of a run right round a ring keep this apart
    double least_m = 0.0;        // shorter runs are left out
};

// The runs of one traced curve; a ring repeats its first point. Left out is what still bends too
// much, leaves the ground or is too steep; a curve too short for rounding has none. Cost: linear in
// its length.
[[nodiscard]] Level runs_along(const FeedableGround& ground, const Polyline& traced,
                               const RunRules& rules);

// The line with its kinks spread over about `rounding_m` to each side, vertices even and at most
// 2 m apart; an open line keeps its ends. One shorter than 4 m comes back as it is.
[[nodiscard]] Polyline smoothed(const Polyline& line, double rounding_m);

// The shortest line the request can be cut into: one bale of some load. Needs loads.
[[nodiscard]] double least_line_m(const LineRequest& request);

struct CurveFamily {
    LineFamily family = LineFamily::boundary;
    std::vector<Level> levels;  // in order across the ground
    int levels_a_spacing = 1;   // levels to go on before the next line is tried
};

// At most about twice `wanted` ways, in order of levels; a level too near the lines laid so far is
// passed over. The caller still judges lines (line_faults) and thins.
[[nodiscard]] std::vector<Candidate> candidates_on(const CurveFamily& curves,
                                                   const LineRequest& request, int wanted);

}  // namespace haylane
