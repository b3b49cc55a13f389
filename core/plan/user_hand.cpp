#include "core/plan/user_hand.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr double kApart_spacings = 3.0;
constexpr double kTurned_rad = 30.0 * units::kPi / 180.0;

bool is_line(const Polyline& line) { return length_m(line) > 0.0; }

Point middle_of(const MultiPolyline& lines) {
    Point sum;
    double length = 0.0;
    for (const Polyline& line : lines) {
        for (std::size_t i = 0; i + 1 < line.size(); ++i) {
            const double piece = distance_m(line[i], line[i + 1]);
            sum = sum + lerp(line[i], line[i + 1], 0.5) * piece;
            length += piece;
        }
    }
    return sum * (1.0 / length);
}

double heading_of(const MultiPolyline& lines) {
    const auto longest = std::max_element(
        lines.begin(), lines.end(),
        [](const Polyline& a, const Polyline& b) { return length_m(a) < length_m(b); });
    return azimuth_rad(longest->front(), longest->back());
}

}  // namespace

const HeldFeeding* held_on(const UserHand& hand, HerdId herd, sys_days day) {
    const auto found = std::find_if(
        hand.held.rbegin(), hand.held.rend(),
        [&](const HeldFeeding& held) { return held.herd == herd && held.date == day; });
    return found == hand.held.rend() ? nullptr : &*found;
}

std::vector<const ForbiddenGround*> forbidden_on(const UserHand& hand, PastureId pasture,
                                                 sys_days day) {
    std::vector<const ForbiddenGround*> closed;
    for (const ForbiddenGround& ground : hand.forbidden) {
        if (ground.pasture && *ground.pasture != pasture) continue;
        if (ground.from <= day && day <= ground.to) closed.push_back(&ground);
    }
    return closed;
}

std::vector<const MultiPolyline*> unlike_on(const UserHand& hand, HerdId herd, sys_days day) {
    std::vector<const MultiPolyline*> lines;
    for (const AnotherWay& asked : hand.another) {
        if (asked.herd == herd && asked.date == day) lines.push_back(&asked.unlike);
    }
    return lines;
}

bool are_clearly_different(const MultiPolyline& a, const MultiPolyline& b, double spacing_m) {
    if (std::none_of(a.begin(), a.end(), is_line) || std::none_of(b.begin(), b.end(), is_line))
        return true;
    if (distance_m(middle_of(a), middle_of(b)) > kApart_spacings * spacing_m) return true;
    const double turn = std::remainder(heading_of(a) - heading_of(b), units::kPi);
    return std::abs(turn) > kTurned_rad;
}

}  // namespace haylane
