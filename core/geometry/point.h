#pragma once
// A place in the ranch frame: metres east and north of the frame's centre.

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {

struct Point {
    double x = 0.0;
    double y = 0.0;
    friend constexpr bool operator==(const Point&, const Point&) = default;
};

[[nodiscard]] constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
[[nodiscard]] constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
[[nodiscard]] constexpr Point operator*(Point a, double k) { return {a.x * k, a.y * k}; }
[[nodiscard]] constexpr double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
// z of the cross product: positive when b turns left of a.
[[nodiscard]] constexpr double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
// Not std::hypot: ranch coordinates cannot overflow a square, and it takes several times as long.
[[nodiscard]] inline double norm_m(Point a) { return std::sqrt(a.x * a.x + a.y * a.y); }
[[nodiscard]] inline double distance_m(Point a, Point b) { return norm_m(b - a); }
// Point at share t in [0, 1] of the way from a to b.
[[nodiscard]] constexpr Point lerp(Point a, Point b, double t) { return a + (b - a) * t; }
// Direction from a to b, clockwise from north in [0, 2 pi); 0 when they coincide.
[[nodiscard]] inline double azimuth_rad(Point a, Point b) {
    const double angle = std::atan2(b.x - a.x, b.y - a.y);
    return angle < 0.0 ? angle + 6.283185307179586 : angle;
}
// Unit step along an azimuth.
[[nodiscard]] inline Point along_azimuth(double azimuth) {
    return {std::sin(azimuth), std::cos(azimuth)};
}

// Axis-parallel box; empty until a point is added.
struct Box {
    double min_x = std::numeric_limits<double>::infinity();
    double min_y = std::numeric_limits<double>::infinity();
    double max_x = -std::numeric_limits<double>::infinity();
    double max_y = -std::numeric_limits<double>::infinity();

    void add(Point p) {
        min_x = std::min(min_x, p.x);
        min_y = std::min(min_y, p.y);
        max_x = std::max(max_x, p.x);
        max_y = std::max(max_y, p.y);
    }
    [[nodiscard]] bool empty() const { return min_x > max_x; }
    [[nodiscard]] bool contains(Point p) const {
        return p.x >= min_x && p.x <= max_x && p.y >= min_y && p.y <= max_y;
    }
    [[nodiscard]] Box grown_by(double margin_m) const {
        return {min_x - margin_m, min_y - margin_m, max_x + margin_m, max_y + margin_m};
    }
    [[nodiscard]] bool meets(const Box& other) const {
        return min_x <= other.max_x && other.min_x <= max_x && min_y <= other.max_y &&
               other.min_y <= max_y;
    }
};

}  // namespace haylane
