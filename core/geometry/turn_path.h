#pragma once
// Shortest forward path of bounded curvature between two poses (Dubins 1957; six words of Shkel and
// Lumelsky 2001). Heading theta is the mathematical angle, counter-clockwise from east.
// Exact to rounding; constant cost.

#include "core/geometry/polyline.h"

#include <array>
#include <optional>
#include <string_view>

namespace haylane {

struct Pose {
    Point at;
    double theta_rad = 0.0;
};

enum class TurnWord { none, straight, lsl, rsr, lsr, rsl, rlr, lrl };
[[nodiscard]] std::string_view to_string(TurnWord word);  // "LSL", "none", "straight"

// One way to drive from a pose to another: three pieces (arc, straight or arc, arc).
struct TurnPath {
    TurnWord word = TurnWord::none;
    std::array<double, 3> piece_m{};  // lengths of the three pieces
    double length_m = 0.0;
};

// Length of one of the six words; nullopt where that word does not exist. radius_m > 0.
[[nodiscard]] std::optional<TurnPath> turn_path(TurnWord word, Pose from, Pose to, double radius_m);
// The shortest. Equal poses give `none` of length 0; a target straight ahead gives `straight`.
// Ties go to the word listed first in TurnWord.
[[nodiscard]] TurnPath shortest_turn_path(Pose from, Pose to, double radius_m);
// The path as points at most `step_m` apart, both ends included.
[[nodiscard]] Polyline drive(const TurnPath& path, Pose from, double radius_m, double step_m);

// Path radius of a trailer's axle in a steady turn: sqrt(R^2 + c^2 - L^2) with R the tractor's
// rear-axle radius, c the hitch distance behind that axle, L from hitch to trailer axle.
// nullopt when it jack-knifes (L >= sqrt(R^2 + c^2)).
[[nodiscard]] std::optional<double> trailer_radius_m(double tractor_radius_m, double hitch_m,
                                                     double trailer_m);

}  // namespace haylane
