#pragma once
// The one judge of a line: every rule that never yields, checked on the finished line.
// Ranch frame, metres. Cost: about the edges and terrain cells near the line.

#include "core/lines/candidate_lines.h"

#include <string_view>
#include <vector>

namespace haylane {

inline constexpr double kBowLimit_m = 0.3;    // of a straight line off its chord
inline constexpr double kVertexStep_m = 2.0;  // most between vertices of a curve

// What a line is held to.
struct LineLimits {
    double length_m = 0.0;       // wanted; half a metre either way
    double line_radius_m = 0.0;  // least radius of a curve; 0 = straight lines only
    std::vector<Point> gates;
    double gate_keep_m = 60.0;
};

enum class LineFault {
    no_line,             // fewer than two points, or no bale
    off_ground,          // outside the feedable region, too steep, or too much cross-slope
    bends_too_much,      // curvature above 1/line_radius_m, or a curve where none is allowed
    vertices_far_apart,  // over 2 m on a curve
    bowed,               // a straight line off its chord by more than 0.3 m
    wrong_length,
    starts_near_gate
};
[[nodiscard]] std::string_view to_string(LineFault fault);

// All faults, in the order of the enum; empty for a line that may be laid.
[[nodiscard]] std::vector<LineFault> line_faults(const FeedableGround& ground,
                                                 const CandidateLine& line,
                                                 const LineLimits& limits);

// Whether a feeding may start here: no gate nearer than the distance kept.
[[nodiscard]] bool start_is_clear(Point start, const std::vector<Point>& gates, double keep_m);

}  // namespace haylane
