// Edges first, the longest first; then the wind, then the even headings, each where none before is
// close to it.
#include "core/lines/headings.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

namespace haylane {

namespace {

constexpr double kLongEdge_m = 60.0;
constexpr double kSameHeading_rad = 0.5 * units::kPi / 180.0;
constexpr std::size_t kEdgeFamilies = 8;
constexpr double kInside_m = 0.05;  // first swath from an edge it runs along

double heading_gap(double a, double b) { return std::abs(std::remainder(a - b, units::kPi)); }

// Directions of long edges, the longest first, no two alike.
std::vector<Heading> edge_headings(const MultiPolygon& shape) {
    std::vector<std::pair<double, Heading>> edges;
    for (const Polyline& ring : boundary_lines(shape)) {
        for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
            const double length = distance_m(ring[i], ring[i + 1]);
            if (length < kLongEdge_m) continue;
            const double driven = azimuth_rad(ring[i], ring[i + 1]);
            const double azimuth = driven >= units::kPi ? driven - units::kPi : driven;
            // The shape lies to the left of its edges.
            const Point inside = ring[i] - right_of(driven) * kInside_m;
            edges.push_back({length, {azimuth, dot(inside, right_of(azimuth))}});
        }
    }
    std::stable_sort(edges.begin(), edges.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<Heading> headings;
    for (const auto& [length, heading] : edges) {
        const double azimuth = heading.azimuth_rad;
        const bool known = std::any_of(headings.begin(), headings.end(),
                                       [&](const Heading& h) { return is_along(h, azimuth); });
        if (!known) headings.push_back(heading);
        if (headings.size() == kEdgeFamilies) break;
    }
    return headings;
}

double least_offset(const MultiPolygon& shape, double azimuth) {
    const Point normal = right_of(azimuth);
    double least = std::numeric_limits<double>::infinity();
    for (const Polygon& part : shape)
        for (const Point p : part.outer) least = std::min(least, dot(p, normal));
    return least;
}

}  // namespace

bool is_along(const Heading& heading, double azimuth_rad) {
    return heading_gap(heading.azimuth_rad, azimuth_rad) < kSameHeading_rad;
}

Point right_of(double azimuth_rad) {
    const Point ahead = along_azimuth(azimuth_rad);
    return {ahead.y, -ahead.x};
}

std::vector<Heading> line_headings(const MultiPolygon& shape, double step_rad,
                                   std::optional<double> wind_from_rad) {
    std::vector<Heading> headings = edge_headings(shape);
    const auto add = [&](double azimuth, std::size_t known_before) {
        const auto end = headings.begin() + static_cast<std::ptrdiff_t>(known_before);
        const bool known = std::any_of(headings.begin(), end,
                                       [&](const Heading& h) { return is_along(h, azimuth); });
        if (!known) headings.push_back({azimuth, least_offset(shape, azimuth) + kInside_m});
    };
    if (wind_from_rad) {
        const double along =
            std::fmod(std::fmod(*wind_from_rad, units::kPi) + units::kPi, units::kPi);
        add(along, headings.size());
        add(std::fmod(along + units::kPi / 2.0, units::kPi), headings.size());
    }
    const std::size_t first = headings.size();
    const double step = std::max(step_rad, kSameHeading_rad);
    const int count = std::max(1, static_cast<int>(std::lround(units::kPi / step)));
    for (int k = 0; k < count; ++k) add(units::kPi * k / count, first);
    std::sort(headings.begin(), headings.end(),
              [](const Heading& a, const Heading& b) { return a.azimuth_rad < b.azimuth_rad; });
    return headings;
}

}  // namespace haylane
