// Dubins 1957, Am. J. Math. 79:497-516; words after Shkel and Lumelsky 2001. Lengths come from the
// turning circles' centres (in units of the radius) and not from the usual closed forms, because
// those take the root of a difference: where circles touch or coincide, rounding of 1e-16 would
// grow to 1e-8 and now and then to a whole turn. Words that start with a right turn are the
// mirror images of those that start left. Arcs within 1e-9 rad of nothing or of a full turn count
// as none.
#include "core/geometry/turn_path.h"

#include "core/base/require.h"
#include "core/base/units.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr double kTurn = 2.0 * units::kPi;
constexpr double kAngleSlack_rad = 1e-9;
constexpr double kTouchSlack = 1e-11;  // of centre distances, in radii
constexpr double kTieSlack = 1e-10;    // of lengths, in radii

using Shares = std::optional<std::array<double, 3>>;  // pieces in radii (arcs: radians)

double full_turn(double angle) {
    double turn = std::fmod(angle, kTurn);
    if (turn < 0.0) turn += kTurn;
    return turn > kTurn - kAngleSlack_rad || turn < kAngleSlack_rad ? 0.0 : turn;
}

Pose mirrored(Pose pose) { return {{pose.at.x, -pose.at.y}, -pose.theta_rad}; }

Point left_center(Pose pose) {
    return pose.at + Point{-std::sin(pose.theta_rad), std::cos(pose.theta_rad)};
}

Point right_center(Pose pose) {
    return pose.at - Point{-std::sin(pose.theta_rad), std::cos(pose.theta_rad)};
}

Shares left_straight_left(Pose from, Pose to) {
    const Point between = left_center(to) - left_center(from);
    const double straight = norm_m(between);
    if (straight < kTouchSlack) return {{full_turn(to.theta_rad - from.theta_rad), 0.0, 0.0}};
    const double heading = std::atan2(between.y, between.x);
    return {{full_turn(heading - from.theta_rad), straight, full_turn(to.theta_rad - heading)}};
}

Shares left_straight_right(Pose from, Pose to) {
    const Point between = right_center(to) - left_center(from);
    const double apart = norm_m(between);
    if (apart < 2.0 - kTouchSlack) return std::nullopt;
    const bool touch = apart < 2.0 + kTouchSlack;
    const double straight = touch ? 0.0 : std::sqrt((apart - 2.0) * (apart + 2.0));
    const double heading = std::atan2(between.y, between.x) + std::atan2(2.0, straight);
    return {{full_turn(heading - from.theta_rad), straight, full_turn(heading - to.theta_rad)}};
}

// The middle circle lies to the left of the line of centres, which makes its arc exceed pi.
Shares left_right_left(Pose from, Pose to) {
    const Point between = left_center(to) - left_center(from);
    const double apart = norm_m(between);
    if (apart > 4.0 + kTouchSlack) return std::nullopt;
    const bool same = apart < kTouchSlack;
    const bool touch = apart > 4.0 - kTouchSlack;
    const double opening = touch ? 0.0 : std::acos(apart / 4.0);
    const double line = same ? 0.0 : std::atan2(between.y, between.x);
    const double middle = units::kPi + 2.0 * opening;
    const double into = line + opening + units::kPi / 2.0;  // heading where the middle arc starts
    return {{full_turn(into - from.theta_rad), middle, full_turn(to.theta_rad - (into - middle))}};
}

// Straight ahead, or nowhere to go: no arcs at all.
Shares without_arcs(Pose from, Pose to) {
    if (full_turn(to.theta_rad - from.theta_rad) > 0.0) return std::nullopt;
    const Point way = to.at - from.at;
    const Point ahead{std::cos(from.theta_rad), std::sin(from.theta_rad)};
    if (std::abs(cross(ahead, way)) > kAngleSlack_rad * std::max(1.0, norm_m(way)))
        return std::nullopt;
    const double distance = dot(ahead, way);
    if (distance < -kAngleSlack_rad) return std::nullopt;
    return {{0.0, std::max(0.0, distance), 0.0}};
}

Shares shares_of(TurnWord word, Pose from, Pose to) {
    switch (word) {
        case TurnWord::lsl:
            return left_straight_left(from, to);
        case TurnWord::rsr:
            return left_straight_left(mirrored(from), mirrored(to));
        case TurnWord::lsr:
            return left_straight_right(from, to);
        case TurnWord::rsl:
            return left_straight_right(mirrored(from), mirrored(to));
        case TurnWord::lrl:
            return left_right_left(from, to);
        case TurnWord::rlr:
            return left_right_left(mirrored(from), mirrored(to));
        case TurnWord::none:
        case TurnWord::straight:
            break;
    }
    const Shares shares = without_arcs(from, to);
    if (!shares) return std::nullopt;
    const bool stays = (*shares)[1] <= kAngleSlack_rad;
    if (stays != (word == TurnWord::none)) return std::nullopt;
    return stays ? Shares{{0.0, 0.0, 0.0}} : shares;
}

// +1 left, -1 right, 0 straight, for the three pieces.
std::array<int, 3> turns_of(TurnWord word) {
    switch (word) {
        case TurnWord::lsl:
            return {1, 0, 1};
        case TurnWord::rsr:
            return {-1, 0, -1};
        case TurnWord::lsr:
            return {1, 0, -1};
        case TurnWord::rsl:
            return {-1, 0, 1};
        case TurnWord::rlr:
            return {-1, 1, -1};
        case TurnWord::lrl:
            return {1, -1, 1};
        case TurnWord::none:
        case TurnWord::straight:
            break;
    }
    return {0, 0, 0};
}

Pose driven(Pose from, int turn, double distance_m, double radius_m) {
    const double theta = from.theta_rad;
    if (turn == 0) return {from.at + Point{std::cos(theta), std::sin(theta)} * distance_m, theta};
    const double end = theta + turn * distance_m / radius_m;
    const Point step{std::sin(end) - std::sin(theta), std::cos(theta) - std::cos(end)};
    return {from.at + step * (turn * radius_m), end};
}

}  // namespace

std::string_view to_string(TurnWord word) {
    switch (word) {
        case TurnWord::none:
            return "none";
        case TurnWord::straight:
            return "straight";
        case TurnWord::lsl:
            return "LSL";
        case TurnWord::rsr:
            return "RSR";
        case TurnWord::lsr:
            return "LSR";
        case TurnWord::rsl:
            return "RSL";
        case TurnWord::rlr:
            return "RLR";
        case TurnWord::lrl:
            return "LRL";
    }
    return "none";
}

std::optional<TurnPath> turn_path(TurnWord word, Pose from, Pose to, double radius_m) {
    require(radius_m > 0.0, "a turning radius must be above 0");
    const Pose start{{0.0, 0.0}, from.theta_rad};
    const Pose end{(to.at - from.at) * (1.0 / radius_m), to.theta_rad};
    const Shares shares = shares_of(word, start, end);
    if (!shares) return std::nullopt;
    TurnPath path{word, {}, 0.0};
    for (std::size_t i = 0; i < 3; ++i) {
        path.piece_m[i] = (*shares)[i] * radius_m;
        path.length_m += path.piece_m[i];
    }
    return path;
}

TurnPath shortest_turn_path(Pose from, Pose to, double radius_m) {
    std::optional<TurnPath> best;
    for (const TurnWord word : {TurnWord::none, TurnWord::straight, TurnWord::lsl, TurnWord::rsr,
                                TurnWord::lsr, TurnWord::rsl, TurnWord::rlr, TurnWord::lrl}) {
        const auto path = turn_path(word, from, to, radius_m);
        if (path && (!best || path->length_m < best->length_m - kTieSlack * radius_m)) best = path;
    }
    return *best;  // LSL always exists
}

Polyline drive(const TurnPath& path, Pose from, double radius_m, double step_m) {
    require(step_m > 0.0, "a step must be above 0");
    Polyline points{from.at};
    const std::array<int, 3> turns = turns_of(path.word);
    for (std::size_t i = 0; i < 3; ++i) {
        const double length = path.piece_m[i];
        if (length <= 0.0) continue;
        const int steps = std::max(1, static_cast<int>(std::ceil(length / step_m - 1e-9)));
        for (int k = 1; k <= steps; ++k)
            points.push_back(driven(from, turns[i], length * k / steps, radius_m).at);
        from = driven(from, turns[i], length, radius_m);
    }
    return points;
}

std::optional<double> trailer_radius_m(double tractor_radius_m, double hitch_m, double trailer_m) {
    const double square =
        tractor_radius_m * tractor_radius_m + hitch_m * hitch_m - trailer_m * trailer_m;
    if (square <= 0.0) return std::nullopt;
    return std::sqrt(square);
}

}  // namespace haylane
