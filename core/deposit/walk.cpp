// A segment is cut at the grid lines it crosses, in order; each piece belongs to the cell of its
// middle, so rounding at a corner can only move a piece of no length. Lengths telescope: their sum
// is the segment's length to rounding.
#include "core/deposit/walk.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {

namespace {

// Shares of a segment at which one coordinate crosses grid lines, rising.
class Crossings {
  public:
    Crossings(double from, double to, double origin, double cell_m)
        : from_(from), delta_(to - from), origin_(origin), cell_m_(cell_m) {
        const double start = (from - origin) / cell_m;
        step_ = delta_ > 0.0 ? 1.0 : -1.0;
        line_ = delta_ > 0.0 ? std::floor(start) + 1.0 : std::ceil(start) - 1.0;
    }
    [[nodiscard]] double next() const {
        if (delta_ == 0.0) return std::numeric_limits<double>::infinity();
        return (origin_ + line_ * cell_m_ - from_) / delta_;
    }
    void advance() { line_ += step_; }

  private:
    double from_;
    double delta_;
    double origin_;
    double cell_m_;
    double step_ = 1.0;
    double line_ = 0.0;
};

// Looks at the cells of the square ring of half-width k around (i, j) that lie in the grid.
template <class Look>
void look_round(const Grid& grid, int i, int j, int k, const Look& look) {
    const int left = std::max(0, i - k);
    const int right = std::min(grid.nx - 1, i + k);
    for (int row = std::max(0, j - k); row <= std::min(grid.ny - 1, j + k); ++row) {
        if (row == j - k || row == j + k) {
            for (int column = left; column <= right; ++column) look(column, row);
        } else {
            if (i - k >= 0 && i - k < grid.nx) look(i - k, row);
            if (i + k >= 0 && i + k < grid.nx) look(i + k, row);
        }
    }
}

}  // namespace

std::uint32_t nearest_cell(Point p, const PastureGround& ground) {
    const Grid& grid = ground.mask.grid;
    const int i = grid.column(p.x);
    const int j = grid.row(p.y);
    if (grid.holds(i, j) && ground.mask(i, j) != 0) {
        return static_cast<std::uint32_t>(grid.at(i, j));
    }
    double best = std::numeric_limits<double>::infinity();
    std::size_t found = 0;
    const int farthest = std::max({i, grid.nx - i, j, grid.ny - j, 1}) + 1;
    for (int k = 1; k <= farthest && k <= best; ++k) {
        look_round(grid, i, j, k, [&](int column, int row) {
            if (ground.mask(column, row) == 0) return;
            const double away = std::hypot(column - i, row - j);
            const std::size_t cell = grid.at(column, row);
            if (away < best || (away == best && cell < found)) {
                best = away;
                found = cell;
            }
        });
    }
    return static_cast<std::uint32_t>(found);
}

std::vector<CellAmount> cells_along(const Polyline& line, double kg_per_m,
                                    const PastureGround& ground) {
    std::vector<CellAmount> cells;
    if (ground.cells == 0) return cells;
    const Grid& grid = ground.mask.grid;
    for (std::size_t s = 0; s + 1 < line.size(); ++s) {
        const Point a = line[s];
        const Point b = line[s + 1];
        const double length = distance_m(a, b);
        if (length == 0.0) continue;
        Crossings across_x(a.x, b.x, grid.x0, grid.cell_m);
        Crossings across_y(a.y, b.y, grid.y0, grid.cell_m);
        double done = 0.0;
        while (done < 1.0) {
            const double next = std::min({across_x.next(), across_y.next(), 1.0});
            if (next > done) {
                cells.push_back({nearest_cell(lerp(a, b, 0.5 * (done + next)), ground),
                                 (next - done) * length * kg_per_m});
                done = next;
            }
            if (across_x.next() <= done) across_x.advance();
            if (across_y.next() <= done) across_y.advance();
        }
    }
    return cells;
}

std::vector<CellAmount> merged(std::vector<CellAmount> cells) {
    std::stable_sort(cells.begin(), cells.end(),
                     [](const CellAmount& a, const CellAmount& b) { return a.cell < b.cell; });
    std::vector<CellAmount> result;
    for (const CellAmount& c : cells) {
        if (!result.empty() && result.back().cell == c.cell) {
            result.back().amount += c.amount;
        } else {
            result.push_back(c);
        }
    }
    return result;
}

void add_cells(const std::vector<CellAmount>& cells, double factor, Raster<double>& into) {
    for (const CellAmount& c : cells) into.values[c.cell] += factor * c.amount;
}

}  // namespace haylane
