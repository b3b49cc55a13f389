#pragma once
// Room at the feed line: metres of line for each animal, eating from one side. m.
// Degenerate case: no cattle, no crowding; 0 is returned.

namespace haylane {

[[nodiscard]] constexpr double line_space_m_per_head(double length_m, int head) {
    return head > 0 ? length_m / head : 0.0;
}

}  // namespace haylane
