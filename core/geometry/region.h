#pragma once
// A shape prepared for many quick questions: is this point inside, does this segment leave it.
// Edges stand in a bucket grid, so a question costs about the edges near it. Const members may be
// called from several threads at once.

#include <cstdint>
#include <vector>

#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"

namespace haylane {

class Region {
  public:
    Region() = default;
    explicit Region(MultiPolygon shape);

    [[nodiscard]] const MultiPolygon& shape() const { return shape_; }
    [[nodiscard]] const Box& box() const { return box_; }
    [[nodiscard]] bool empty() const { return shape_.empty(); }
    // Even-odd; on an edge either way.
    [[nodiscard]] bool contains(Point p) const;
    // True when no edge of the shape crosses the segment properly and its middle lies inside:
    // touching a corner or running along an edge is allowed.
    [[nodiscard]] bool covers_segment(Point a, Point b) const;
    [[nodiscard]] bool covers(const Polyline& line) const;
    // Places where the segment crosses edges, as sorted shares in [0, 1] of a-b.
    [[nodiscard]] std::vector<double> crossings(Point a, Point b) const;
    // Pieces of the straight segment a-b inside the shape, as [from, to] distances from a, sorted.
    struct Span {
        double from_m = 0.0;
        double to_m = 0.0;
    };
    [[nodiscard]] std::vector<Span> inside_spans(Point a, Point b) const;
    // Least distance from p to any edge; infinity when empty.
    [[nodiscard]] double distance_to_edge_m(Point p) const;

  private:
    struct Edge {
        Point a;
        Point b;
    };
    MultiPolygon shape_;
    Box box_;
    std::vector<Edge> edges_;
    double cell_m_ = 1.0;
    int nx_ = 0;
    int ny_ = 0;
    std::vector<std::uint32_t> bucket_start_;  // size nx*ny + 1
    std::vector<std::uint32_t> bucket_edges_;
};

}  // namespace haylane
