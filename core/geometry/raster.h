#pragma once
// A grid of square cells in the ranch frame, aligned to whole multiples of its cell, and values on
// it. Row 0 is the SOUTH row, column 0 the west one; files flip rows at the edge (gis/raster).

#include "core/base/require.h"
#include "core/geometry/point.h"

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace haylane {

struct Grid {
    double x0 = 0.0;  // west edge, m
    double y0 = 0.0;  // south edge, m
    double cell_m = 3.0;
    int nx = 0;
    int ny = 0;

    [[nodiscard]] std::size_t size() const {
        return static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny);
    }
    [[nodiscard]] int column(double x) const {
        return static_cast<int>(std::floor((x - x0) / cell_m));
    }
    [[nodiscard]] int row(double y) const {
        return static_cast<int>(std::floor((y - y0) / cell_m));
    }
    [[nodiscard]] bool holds(int i, int j) const { return i >= 0 && j >= 0 && i < nx && j < ny; }
    [[nodiscard]] std::size_t at(int i, int j) const {
        return static_cast<std::size_t>(j) * static_cast<std::size_t>(nx) +
               static_cast<std::size_t>(i);
    }
    [[nodiscard]] Point center(int i, int j) const {
        return {x0 + (i + 0.5) * cell_m, y0 + (j + 0.5) * cell_m};
    }
    [[nodiscard]] double cell_area_m2() const { return cell_m * cell_m; }
    friend bool operator==(const Grid&, const Grid&) = default;
};

// The least grid with edges at whole multiples of `cell_m` that covers `box`; nx = ny = 0 for an
// empty box.
[[nodiscard]] inline Grid grid_over(const Box& box, double cell_m) {
    if (box.empty()) return Grid{0.0, 0.0, cell_m, 0, 0};
    const double i0 = std::floor(box.min_x / cell_m);
    const double j0 = std::floor(box.min_y / cell_m);
    return Grid{i0 * cell_m, j0 * cell_m, cell_m,
                static_cast<int>(std::floor(box.max_x / cell_m) - i0) + 1,
                static_cast<int>(std::floor(box.max_y / cell_m) - j0) + 1};
}

template <class T>
struct Raster {
    Grid grid;
    std::vector<T> values;  // row-major, grid.size() of them

    Raster() = default;
    explicit Raster(Grid g, T fill = T{}) : grid(g), values(g.size(), fill) {}
    [[nodiscard]] T& operator()(int i, int j) { return values[grid.at(i, j)]; }
    [[nodiscard]] const T& operator()(int i, int j) const { return values[grid.at(i, j)]; }
};

}  // namespace haylane
