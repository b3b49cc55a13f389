#pragma once
// How hay lies across a line: five parallel strips, each with its offset and its share. Offsets in
// metres to the right of travel; shares sum to 1. A line without length counts as its first point.

#include "core/deposit/walk.h"
#include "core/ranch/ranch.h"

#include <array>
#include <vector>

namespace haylane {

struct Strip {
    double offset_m = 0.0;  // right of travel; negative is left
    double share_ratio = 0.0;
};
using CrossProfile = std::array<Strip, 5>;

// Where a shredding rig's tail falls.
enum class TailSide { left, both, right };

// Unrolling rigs lay a windrow with a slight spread to both sides, whatever the wind; shredding
// rigs a windrow and a tail on one side. Without wind the tail is short.
// Fines that a shredding rig lost, as a share of what is left on the ground, lie in the tail.
[[nodiscard]] CrossProfile cross_profile(const Rig& rig, TailSide side, bool windy,
                                         double fines_share_ratio = 0.0);
// The down-wind side of the line from its first to its last point; the machine's discharge side
// when no wind is known (wind_from_rad < 0), when it blows along, or when the line closes.
[[nodiscard]] TailSide tail_side(const Rig& rig, const Polyline& line, double wind_from_rad);
// The line moved sideways, right positive; corners are mitred, at most twice the offset.
[[nodiscard]] Polyline offset_line(const Polyline& line, double offset_m);

// One kg of residue along the lines, by their lengths: merged cells that sum to 1.
// rig = nullptr: all of it on the lines themselves.
[[nodiscard]] std::vector<CellAmount> residue_cells(const MultiPolyline& lines, const Rig* rig,
                                                    double wind_from_rad,
                                                    const PastureGround& ground,
                                                    double fines_share_ratio = 0.0);
// One kg along the lines themselves, by their lengths: merged cells that sum to 1.
[[nodiscard]] std::vector<CellAmount> line_cells(const MultiPolyline& lines,
                                                 const PastureGround& ground);

}  // namespace haylane
