#pragma once
// Directions in which straight lines are tried on a ground: along its long edges, and evenly round
// the compass between them.

#include "core/geometry/polygon.h"

#include <vector>

namespace haylane {

// A line and its reverse are one heading.
struct Heading {
    double azimuth_rad = 0.0;  // in [0, pi)
    double anchor_m = 0.0;     // offset (along right_of) of one swath, beside an edge
};

// The unit vector to the right of an azimuth; offsets of swaths are counted along it.
[[nodiscard]] Point right_of(double azimuth_rad);
// Sorted by azimuth; at most eight edges of 60 m or more, and every `step_rad` (half a degree at
// least) where no edge lies within half a degree.
[[nodiscard]] std::vector<Heading> line_headings(const MultiPolygon& shape, double step_rad);

}  // namespace haylane
