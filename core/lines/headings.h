#pragma once
// Directions in which straight lines are tried on a ground: along its long edges, along and across
// the wind, and evenly round the compass between them.

#include "core/geometry/polygon.h"

#include <optional>
#include <vector>

namespace haylane {

// A line and its reverse are one heading.
struct Heading {
    double azimuth_rad = 0.0;  // in [0, pi)
    double anchor_m = 0.0;     // offset (along right_of) of one swath, beside an edge
};

// Whether a heading is that of an azimuth, either way round, to half a degree.
[[nodiscard]] bool is_along(const Heading& heading, double azimuth_rad);
// The unit vector to the right of an azimuth; offsets of swaths are counted along it.
[[nodiscard]] Point right_of(double azimuth_rad);
// Sorted by azimuth; at most eight edges of 60 m or more, along and across a wind if there is one,
// and every `step_rad` (half a degree at least) where none of these lies within half a degree.
[[nodiscard]] std::vector<Heading> line_headings(const MultiPolygon& shape, double step_rad,
                                                 std::optional<double> wind_from_rad = {});

}  // namespace haylane
