#pragma once
// Shortest ways inside an area with holes, by straight moves between points that see each other
// (visibility graph over the area's reflex corners; exact for uniform cost).
// Build: O(c^2) sight tests for c corners; a query adds two points (at most 2 c sight tests) and
// may be asked from several threads at once.

#include "core/geometry/polyline.h"
#include "core/geometry/region.h"

#include <optional>
#include <vector>

namespace haylane {

// Ways inside one free area. Corners stand a hair (1 cm) inside so that hugging a corner is legal.
class FreeSpace {
  public:
    FreeSpace() = default;
    // `free` is where one may drive (fence kept, obstacles out).
    explicit FreeSpace(MultiPolygon free);

    [[nodiscard]] const Region& region() const { return region_; }
    [[nodiscard]] bool sees(Point a, Point b) const { return region_.covers_segment(a, b); }
    // Turning points of shortest ways (reflex corners of the boundary, corners of holes).
    [[nodiscard]] const std::vector<Point>& corners() const { return corners_; }
    // Pairs of corners that see each other.
    struct Sight {
        int a = 0;
        int b = 0;
        double length_m = 0.0;
    };
    [[nodiscard]] const std::vector<Sight>& sights() const { return sights_; }
    // Shortest way from a to b inside the area, both included; nullopt when there is none. A start
    // or end outside the area gives nullopt.
    [[nodiscard]] std::optional<Polyline> way(Point a, Point b) const;

  private:
    Region region_;
    std::vector<Point> corners_;
    std::vector<Sight> sights_;
    std::vector<std::vector<int>> seen_from_;  // for each corner, the corners it sees
};

}  // namespace haylane
