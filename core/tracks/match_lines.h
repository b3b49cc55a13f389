#pragma once
// Which planned line a laid line was meant to be: how near one runs to the other.

#include "core/geometry/polyline.h"

#include <optional>
#include <vector>

namespace haylane {

// Discrete Frechet distance (Eiter and Mannila 1994) between the vertices of two lines, metres;
// infinity when one has none. Cost: vertices x vertices, memory the shorter.
[[nodiscard]] double discrete_frechet_m(const Polyline& a, const Polyline& b);

struct LineFit {
    double share_near = 0.0;  // of the laid length, within the spacing of the planned line
    double share_laid = 0.0;  // of the planned length, within the spacing of the laid line
    double off_m = 0.0;       // median distance of the laid line from the planned one
    double frechet_m = 0.0;   // the better of both directions, vertices 5 m apart
    bool other_way = false;   // driven against the plan's direction
    double longer_m = 0.0;    // laid less planned length
};
// Both lines need two points or more; spacing above 0.
[[nodiscard]] LineFit fit_line(const Polyline& laid, const Polyline& planned, double spacing_m);

struct LineMatch {
    std::size_t planned = 0;
    LineFit fit;
};
// The planned line that most of the laid one runs near (at least half of it), the nearer by Frechet
// distance among equals; nullopt when none does.
[[nodiscard]] std::optional<LineMatch> best_match(const Polyline& laid,
                                                  const std::vector<Polyline>& planned,
                                                  double spacing_m);

}  // namespace haylane
