#pragma once
// A slow judge of feeding lines, for tests only: it samples lines every metre and measures against
// the raw map (even-odd fences, distances to off-limits), sharing no code with core/lines or the
// overlay library. Gives the first broken rule as text, "" when all hold.

#include "core/ground/terrain.h"
#include "core/lines/candidate_lines.h"
#include "core/ranch/ranch.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace haylane::test {

struct RawMap {
    MultiPolygon pasture;
    std::vector<OffLimits> off_limits;
    double fence_strip_m = 6.0;
    const Terrain* terrain = nullptr;
};

inline double brute_distance(Point p, Point a, Point b) {
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const double square = dx * dx + dy * dy;
    double t = square > 0.0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0.0;
    t = std::min(1.0, std::max(0.0, t));
    return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

inline double brute_distance(Point p, const std::vector<Point>& points, bool closed) {
    double least = 1e300;
    for (std::size_t i = 0; i + 1 < points.size(); ++i)
        least = std::min(least, brute_distance(p, points[i], points[i + 1]));
    if (closed) least = std::min(least, brute_distance(p, points.back(), points.front()));
    return least;
}

inline std::vector<Ring> rings_of(const MultiPolygon& shape) {
    std::vector<Ring> rings;
    for (const Polygon& part : shape) {
        rings.push_back(part.outer);
        for (const Ring& hole : part.holes) rings.push_back(hole);
    }
    return rings;
}

inline bool brute_inside(const std::vector<Ring>& rings, Point p) {
    bool odd = false;
    for (const Ring& ring : rings) {
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
            const Point a = ring[i];
            const Point b = ring[j];
            if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y))
                odd = !odd;
        }
    }
    return odd;
}

inline std::string broken_at(const RawMap& map, const std::vector<Ring>& fence, Point p,
                             double heading) {
    constexpr double kSlack = 1e-6;
    if (!brute_inside(fence, p)) return "outside the fence";
    for (const Ring& ring : fence)
        if (brute_distance(p, ring, true) < map.fence_strip_m - kSlack) return "in the fence strip";
    for (const OffLimits& item : map.off_limits) {
        const std::vector<Ring> area = rings_of(item.area);
        if (!area.empty() && brute_inside(area, p)) return "off limits: " + item.name;
        double least = 1e300;
        for (const Ring& ring : area) least = std::min(least, brute_distance(p, ring, true));
        for (const Polyline& line : item.lines)
            least = std::min(least, brute_distance(p, line, false));
        for (const Point q : item.points) least = std::min(least, std::hypot(p.x - q.x, p.y - q.y));
        if (least < item.setback_m - kSlack) return "within the setback of " + item.name;
    }
    if (map.terrain == nullptr) return "";
    const auto gradient = map.terrain->gradient(p);
    if (!gradient) return "";
    if (std::hypot(gradient->east, gradient->north) > 0.12) return "too steep";
    const double across = gradient->east * std::cos(heading) - gradient->north * std::sin(heading);
    return std::abs(across) > 0.10 ? "too much cross-slope" : "";
}

inline double total_length(const Polyline& path) {
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < path.size(); ++i)
        sum += std::hypot(path[i + 1].x - path[i].x, path[i + 1].y - path[i].y);
    return sum;
}

inline std::string broken_ground(const RawMap& map, const Polyline& path) {
    const std::vector<Ring> fence = rings_of(map.pasture);
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const Point a = path[i];
        const Point b = path[i + 1];
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        const double heading = std::atan2(b.x - a.x, b.y - a.y);
        const int steps = std::max(1, static_cast<int>(std::ceil(length)));
        for (int k = 0; k <= steps; ++k) {
            // A hair off the ends, where a line may rest on the border between two terrain cells.
            const double t = std::clamp(static_cast<double>(k) / steps, 1e-9, 1.0 - 1e-9);
            const std::string broken =
                broken_at(map, fence, {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}, heading);
            if (!broken.empty()) return broken;
        }
    }
    return "";
}

// Turning over at least `window_m` of line, anywhere, as curvature.
inline double sharpest_turn_per_m(const Polyline& path, double window_m) {
    double sharpest = 0.0;
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        double turned = 0.0;
        double driven = 0.0;
        for (std::size_t j = i + 1; j + 1 < path.size() && driven < window_m; ++j) {
            const double before = std::atan2(path[j].x - path[j - 1].x, path[j].y - path[j - 1].y);
            const double after = std::atan2(path[j + 1].x - path[j].x, path[j + 1].y - path[j].y);
            turned += std::remainder(after - before, 6.283185307179586);
            driven += std::hypot(path[j + 1].x - path[j].x, path[j + 1].y - path[j].y);
            if (driven >= window_m) sharpest = std::max(sharpest, std::abs(turned) / driven);
        }
    }
    return sharpest;
}

inline std::string broken_shape(const LineRequest& request, const CandidateLine& line) {
    if (line.path.size() < 2) return "no line";
    if (!line.curved) return line.path.size() == 2 ? "" : "a straight line of many points";
    if (request.line_radius_m <= 0.0) return "a curve where none is allowed";
    for (std::size_t i = 0; i + 1 < line.path.size(); ++i)
        if (total_length({line.path[i], line.path[i + 1]}) > 2.0 + 1e-9)
            return "vertices over 2 m apart";
    for (const double window : {2.0, 6.0})
        if (sharpest_turn_per_m(line.path, window) * request.line_radius_m > 1.01)
            return "bends too much";
    return "";
}

inline std::string broken_loads(const LineRequest& request, const Candidate& candidate) {
    std::vector<int> bales(request.loads.size(), 0);
    std::vector<double> length(request.loads.size(), 0.0);
    for (const CandidateLine& line : candidate.lines) {
        const auto load = static_cast<std::size_t>(line.load);
        if (load >= request.loads.size() || line.bales < 1) return "a line without a whole bale";
        const double wanted = request.loads[load].length_m / request.loads[load].bales * line.bales;
        if (std::abs(total_length(line.path) - wanted) > 0.5) return "a line of the wrong length";
        if (std::abs(total_length(line.path) - line.length_m) > 1e-6) return "length_m is not its";
        bales[load] += line.bales;
        length[load] += line.length_m;
    }
    for (std::size_t i = 0; i < bales.size(); ++i) {
        if (bales[i] != request.loads[i].bales) return "bales of a load lost";
        if (std::abs(length[i] - request.loads[i].length_m) > 0.5 * request.loads[i].bales)
            return "length of a load lost";
    }
    return "";
}

inline double near_gate(const LineRequest& request, const Polyline& path) {
    double least = 1e300;
    for (const Point gate : request.gates)
        least = std::min(least, brute_distance(gate, path, false));
    return least;
}

inline std::string broken_order(const LineRequest& request, const Candidate& candidate) {
    if (request.gates.empty()) return "";
    double before = 1e300;  // distance of the load before
    std::vector<bool> seen(request.loads.size(), false);
    for (std::size_t i = 0; i < candidate.lines.size(); ++i) {
        const CandidateLine& line = candidate.lines[i];
        const Point start = line.path.front();
        for (const Point gate : request.gates)
            if (std::hypot(start.x - gate.x, start.y - gate.y) < request.gate_keep_m - 1e-9)
                return "starts near a gate";
        if (seen[static_cast<std::size_t>(line.load)]) continue;
        seen[static_cast<std::size_t>(line.load)] = true;
        double load = 1e300;
        for (const CandidateLine& other : candidate.lines)
            if (other.load == line.load) load = std::min(load, near_gate(request, other.path));
        if (load > before + 1e-6) return "a nearer load laid first";
        before = load;
    }
    return "";
}

// Lines of one feeding keep the spacing, unless they follow each other end to end.
inline std::string broken_spacing(const LineRequest& request, const Candidate& candidate) {
    for (std::size_t i = 0; i < candidate.lines.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const Polyline& a = candidate.lines[i].path;
            const Polyline& b = candidate.lines[j].path;
            double ends = 1e300;
            for (const Point p : {a.front(), a.back()})
                for (const Point q : {b.front(), b.back()})
                    ends = std::min(ends, std::hypot(p.x - q.x, p.y - q.y));
            if (ends < 0.1) continue;
            double least = 1e300;
            for (const Point p : a) least = std::min(least, brute_distance(p, b, false));
            for (const Point p : b) least = std::min(least, brute_distance(p, a, false));
            if (least < 0.95 * request.spacing_m) return "lines of one feeding too near";
        }
    }
    return "";
}

inline std::string broken_rule(const RawMap& map, const LineRequest& request,
                               const Candidate& candidate) {
    for (const CandidateLine& line : candidate.lines) {
        for (const std::string& broken :
             {broken_ground(map, line.path), broken_shape(request, line)})
            if (!broken.empty()) return broken;
    }
    for (const std::string& broken :
         {broken_loads(request, candidate), broken_order(request, candidate),
          broken_spacing(request, candidate)})
        if (!broken.empty()) return broken;
    return "";
}

}  // namespace haylane::test
