#pragma once
// Places of bales that are set whole in ring feeders, a row of them where else a line would lie.
// Ranch frame, metres.

#include "core/lines/candidate_lines.h"

#include <vector>

namespace haylane {

// One place a bale (at least one), each in the middle of an equal part of the row, in driving
// order.
[[nodiscard]] std::vector<Point> ring_places(const Polyline& row, int bales);
// Those of all rows; none when the bales are not set in rings.
[[nodiscard]] std::vector<Point> ring_places(const Candidate& rows);

}  // namespace haylane
