// Curvature is Menger's over
// the line's own vertices, which stand at an even step on curves.
#include "core/lines/drivable.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr double kLengthSlack_m = 0.5;
constexpr double kRounding = 1e-9;

bool has_far_vertices(const Polyline& path) {
    for (std::size_t i = 0; i + 1 < path.size(); ++i)
        if (distance_m(path[i], path[i + 1]) > kVertexStep_m + kRounding) return true;
    return false;
}

bool bends_too_much(const CandidateLine& line, double radius_m) {
    if (!line.curved) return false;
    return radius_m <= 0.0 || max_curvature_per_m(line.path) * radius_m > 1.0 + kRounding;
}

}  // namespace

std::string_view to_string(LineFault fault) {
    switch (fault) {
        case LineFault::no_line:
            return "no_line";
        case LineFault::off_ground:
            return "off_ground";
        case LineFault::bends_too_much:
            return "bends_too_much";
        case LineFault::vertices_far_apart:
            return "vertices_far_apart";
        case LineFault::bowed:
            return "bowed";
        case LineFault::wrong_length:
            return "wrong_length";
        case LineFault::starts_near_gate:
            return "starts_near_gate";
    }
    return "no_line";
}

bool start_is_clear(Point start, const std::vector<Point>& gates, double keep_m) {
    return std::none_of(gates.begin(), gates.end(),
                        [&](Point gate) { return distance_m(start, gate) < keep_m; });
}

std::vector<LineFault> line_faults(const FeedableGround& ground, const CandidateLine& line,
                                   const LineLimits& limits) {
    if (line.path.size() < 2 || line.bales < 1) return {LineFault::no_line};
    std::vector<LineFault> faults;
    const auto check = [&](bool broken, LineFault fault) {
        if (broken) faults.push_back(fault);
    };
    check(!ground.allows_line(line.path), LineFault::off_ground);
    check(bends_too_much(line, limits.line_radius_m), LineFault::bends_too_much);
    check(line.curved && has_far_vertices(line.path), LineFault::vertices_far_apart);
    check(!line.curved && bow_m(line.path) > kBowLimit_m, LineFault::bowed);
    check(!(std::abs(length_m(line.path) - limits.length_m) <= kLengthSlack_m),
          LineFault::wrong_length);
    check(!start_is_clear(line.path.front(), limits.gates, limits.gate_keep_m),
          LineFault::starts_near_gate);
    return faults;
}

}  // namespace haylane
