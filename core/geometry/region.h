#pragma once
// A shape prepared for many quick questions: is this point inside, does this segment leave it.
// Edges stand in a bucket grid, so a question costs about the edges near it. Const members may be
// called from several threads at once. The shape is taken as closed: within tolerance_m() (1e-9 of
// the greatest coordinate) of an edge counts as inside wherever segments are asked about.

#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"

#include <cstdint>
#include <vector>

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
    // True when no part of the segment lies outside: touching a corner, starting on an edge or
    // running along one is allowed. a == b asks whether that point is inside or on an edge.
    [[nodiscard]] bool covers_segment(Point a, Point b) const;
    [[nodiscard]] bool covers(const Polyline& line) const;
    // Places where the segment crosses or touches edges, as sorted shares in [0, 1] of a-b.
    [[nodiscard]] std::vector<double> crossings(Point a, Point b) const;
    // Pieces of the straight segment a-b inside the shape, as [from, to] distances from a, sorted.
    struct Span {
        double from_m = 0.0;
        double to_m = 0.0;
    };
    [[nodiscard]] std::vector<Span> inside_spans(Point a, Point b) const;
    // Least distance from p to any edge; infinity when empty.
    [[nodiscard]] double distance_to_edge_m(Point p) const;
    [[nodiscard]] double tolerance_m() const { return tolerance_m_; }

  private:
    struct Edge {
        Point a;
        Point b;
    };
    struct Cells {  // columns [from, to] of one row
        int from = 0;
        int to = -1;
    };
    [[nodiscard]] int column(double x) const;
    [[nodiscard]] int row(double y) const;
    // Columns of row j that the segment, widened by pad_m, may touch.
    [[nodiscard]] Cells cells_in_row(Point a, Point b, int j, double pad_m) const;
    void lay_grid();
    void fill_buckets();
    [[nodiscard]] bool inside_or_on_edge(Point p) const;
    // 0, the crossings and 1, none closer together than the tolerance.
    [[nodiscard]] std::vector<double> cuts(Point a, Point b) const;
    template <class Visit>
    void visit_cell(int i, int j, Visit visit) const;
    MultiPolygon shape_;
    Box box_;
    std::vector<Edge> edges_;
    double tolerance_m_ = 0.0;
    double cell_m_ = 1.0;
    int nx_ = 0;
    int ny_ = 0;
    std::vector<std::uint32_t> bucket_start_;  // size nx*ny + 1
    std::vector<std::uint32_t> bucket_edges_;
};

}  // namespace haylane
