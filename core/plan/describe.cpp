#include "core/plan/describe.h"

#include "core/base/units.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kGateReach_m = 500.0;
constexpr double kAheadReach_m = 3000.0;
constexpr double kAheadHalfAngle_rad = 12.0 * units::kPi / 180.0;

// The outermost vertex toward each of the four between-directions.
void add_corners(const Pasture& pasture, std::vector<Landmark>& landmarks) {
    const std::array<std::pair<const char*, Point>, 4> sides{
        {{"NE", {1, 1}}, {"SE", {1, -1}}, {"SW", {-1, -1}}, {"NW", {-1, 1}}}};
    for (const auto& [name, direction] : sides) {
        std::optional<Point> best;
        for (const Polygon& part : pasture.shape) {
            for (const Point p : part.outer) {
                if (!best || dot(p, direction) > dot(*best, direction)) best = p;
            }
        }
        if (best) landmarks.push_back({fmt::format("the {} corner", name), *best, false});
    }
}

double angle_between(double a, double b) {
    const double turn = std::fabs(a - b);
    return std::min(turn, 2.0 * units::kPi - turn);
}

}  // namespace

std::vector<Landmark> landmarks_of(const Ranch& ranch, PastureId pasture,
                                   const std::vector<GateId>& gates) {
    std::vector<Landmark> landmarks;
    landmarks.reserve(gates.size());
    for (const GateId gate : gates) landmarks.push_back({ranch[gate].name, ranch[gate].at, true});
    const Box near = box_of(ranch[pasture].shape).grown_by(800.0);
    const auto add = [&](const std::string& name, Point at) {
        if (near.contains(at) && !name.empty()) landmarks.push_back({name, at, false});
    };
    for (const WaterPoint& water : ranch.water) add(water.name, water.at);
    for (const Yard& yard : ranch.yards) add(yard.name, yard.at);
    for (const Shelter& shelter : ranch.shelter) {
        if (!shelter.area.empty()) add(shelter.name, centroid(shelter.area));
        if (!shelter.lines.empty())
            add(shelter.name, point_at(shelter.lines.front(), length_m(shelter.lines.front()) / 2));
        if (!shelter.points.empty()) add(shelter.name, shelter.points.front());
    }
    add_corners(ranch[pasture], landmarks);
    return landmarks;
}

StartHint start_hint(const std::vector<Landmark>& landmarks, Point start) {
    const Landmark* best = nullptr;
    const auto rank = [&](const Landmark& mark) {
        const double away = distance_m(mark.at, start);
        return std::make_pair(!(mark.gate && away <= kGateReach_m), away);
    };
    for (const Landmark& mark : landmarks) {
        if (best == nullptr || rank(mark) < rank(*best)) best = &mark;
    }
    if (best == nullptr) return {};
    return {best->name, distance_m(best->at, start), azimuth_rad(best->at, start)};
}

std::string toward(const std::vector<Landmark>& landmarks, const Polyline& line) {
    const double heading = azimuth_rad(line.front(), line.back());
    const Landmark* best = nullptr;
    for (const Landmark& mark : landmarks) {
        const double away = distance_m(line.back(), mark.at);
        if (away > kAheadReach_m || away < 1.0) continue;
        if (angle_between(azimuth_rad(line.front(), mark.at), heading) > kAheadHalfAngle_rad ||
            angle_between(azimuth_rad(line.back(), mark.at), heading) > units::kPi / 2.0)
            continue;
        if (best == nullptr || away < distance_m(line.back(), best->at)) best = &mark;
    }
    const std::string_view word = compass_word(heading);
    return best == nullptr ? std::string(word) : fmt::format("{}, toward {}", word, best->name);
}

std::string_view compass_word(double azimuth) {
    static constexpr std::array<std::string_view, 8> kWords{
        "north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"};
    const double turns = azimuth / (2.0 * units::kPi) * 8.0;
    const auto index = static_cast<std::size_t>(std::lround(turns) % 8 + 8) % 8;
    return kWords[index];
}

}  // namespace haylane
