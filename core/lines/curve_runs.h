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
    std::vector<double> along_m;  // of each point from the first
    double length_m = 0.0;        // room for lines
    Box box;
};

using Level = std::vector<Run>;

struct RunRules {
    double line_radius_m = 0.0;  // least radius of a curve
    double rounding_m = 2.0;     // half the width of the moving average that takes kinks out
    double spacing_m = 12.0;     // the ends of a run right round a ring keep this apart
};

// The runs of traced curves; a ring repeats its first point. Left out is what still bends too
// much, leaves the ground or is too steep; a curve too short for rounding has none. Cost: linear in
// their length.
[[nodiscard]] Level runs_along(const FeedableGround& ground, const MultiPolyline& traced,
                               const RunRules& rules);

// The line with its kinks spread over about `rounding_m` to each side, vertices even and at most
// 2 m apart; an open line keeps its ends. One shorter than 4 m comes back as it is.
[[nodiscard]] Polyline smoothed(const Polyline& line, double rounding_m);

struct CurveFamily {
    LineFamily family = LineFamily::boundary;
    std::vector<Level> levels;  // in order across the ground
    int levels_a_spacing = 1;   // levels to go on before the next line is tried
};

// At most about twice `wanted` ways, in order of levels; a level too near the lines laid so far is
// passed over. Loads need bales and a length. The caller still judges lines (line_faults) and
// thins. Cost: for each start, the levels on both sides until the loads are laid.
[[nodiscard]] std::vector<Candidate> candidates_on(const CurveFamily& curves,
                                                   const LineRequest& request, int wanted);

}  // namespace haylane
