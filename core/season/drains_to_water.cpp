// Cells are taken in the order in which rising water would reach them from the outlets (the edge,
// unknown ground, water). Each drains to its lowest neighbour by slope, in a flat or filled hollow
// to the cell it was reached from; both were taken before it, so their distance is known.
#include "core/season/drains_to_water.h"

#include "core/deposit/cells_inside.h"
#include "core/geometry/polyline.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <tuple>
#include <utility>
#include <vector>

#include <queue>

namespace haylane {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr std::array<std::pair<int, int>, 8> kNeighbours{
    {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}}};

void mark(Point p, Raster<std::uint8_t>& cells) {
    const int i = cells.grid.column(p.x);
    const int j = cells.grid.row(p.y);
    if (cells.grid.holds(i, j)) cells(i, j) = 1;
}

class Flood {
  public:
    Flood(const Raster<float>& elevation, const Raster<std::uint8_t>& water)
        : elevation_(elevation),
          water_(water),
          level_(elevation.grid, -kNever),
          away_m_(elevation.grid, kNever),
          seen_(elevation.grid) {}

    Raster<double> run() {
        start();
        while (!queue_.empty()) {
            const auto [level, order, cell] = queue_.top();
            queue_.pop();
            const int i = static_cast<int>(cell % static_cast<std::size_t>(grid().nx));
            const int j = static_cast<int>(cell / static_cast<std::size_t>(grid().nx));
            for (const auto& [di, dj] : kNeighbours) reach(i, j, i + di, j + dj);
        }
        return std::move(away_m_);
    }

  private:
    using Entry = std::tuple<double, std::size_t, std::size_t>;  // level, order reached, cell

    [[nodiscard]] const Grid& grid() const { return elevation_.grid; }
    [[nodiscard]] bool known(int i, int j) const {
        return grid().holds(i, j) && std::isfinite(elevation_(i, j));
    }
    [[nodiscard]] double step_m(int di, int dj) const {
        return grid().cell_m * (di != 0 && dj != 0 ? std::sqrt(2.0) : 1.0);
    }
    void push(int i, int j, double level) {
        seen_(i, j) = 1;
        level_(i, j) = level;
        queue_.emplace(level, reached_++, grid().at(i, j));
    }
    void start() {
        for (int j = 0; j < grid().ny; ++j) {
            for (int i = 0; i < grid().nx; ++i) {
                if (!known(i, j)) continue;
                const bool wet = water_(i, j) != 0;
                const bool edge = std::any_of(
                    kNeighbours.begin(), kNeighbours.end(),
                    [&](const auto& step) { return !known(i + step.first, j + step.second); });
                if (!wet && !edge) continue;
                if (wet) away_m_(i, j) = 0.0;
                push(i, j, static_cast<double>(elevation_(i, j)));
            }
        }
    }
    // Water rises from a cell into its neighbour.
    void reach(int from_i, int from_j, int i, int j) {
        if (!known(i, j) || seen_(i, j) != 0) return;
        push(i, j, std::max(static_cast<double>(elevation_(i, j)), level_(from_i, from_j)));
        double steepest = 0.0;
        int to_i = from_i;
        int to_j = from_j;
        for (const auto& [di, dj] : kNeighbours) {
            if (!known(i + di, j + dj) || seen_(i + di, j + dj) == 0) continue;
            const double fall = (level_(i, j) - level_(i + di, j + dj)) / step_m(di, dj);
            if (fall > steepest) {
                steepest = fall;
                to_i = i + di;
                to_j = j + dj;
            }
        }
        away_m_(i, j) = away_m_(to_i, to_j) + step_m(to_i - i, to_j - j);
    }

    const Raster<float>& elevation_;
    const Raster<std::uint8_t>& water_;
    Raster<double> level_;  // of the filled ground
    Raster<double> away_m_;
    Raster<std::uint8_t> seen_;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue_;
    std::size_t reached_ = 0;
};

}  // namespace

Raster<std::uint8_t> water_cells(const Ranch& ranch, const Grid& grid) {
    Raster<std::uint8_t> wet(grid);
    for (const OffLimits& item : ranch.off_limits) {
        if (item.kind != OffLimitsKind::water && item.kind != OffLimitsKind::wetland) continue;
        if (!item.area.empty()) {
            const Raster<std::uint8_t> inside = cells_inside(item.area, grid);
            for (std::size_t c = 0; c < wet.values.size(); ++c) wet.values[c] |= inside.values[c];
        }
        for (const MultiPolyline& lines : {item.lines, boundary_lines(item.area)}) {
            for (const Polyline& line : lines) {
                for (const Point p : densified(line, grid.cell_m / 3.0)) mark(p, wet);
            }
        }
        for (const Point p : item.points) mark(p, wet);
    }
    return wet;
}

Raster<double> flow_to_water_m(const Raster<float>& elevation_m,
                               const Raster<std::uint8_t>& water) {
    require(elevation_m.grid == water.grid, "flow to water: grids differ");
    return Flood(elevation_m, water).run();
}

Raster<float> cut_out(const Raster<float>& raster, const Box& box) {
    const Grid& all = raster.grid;
    if (box.empty() || all.size() == 0) return Raster<float>(Grid{0.0, 0.0, all.cell_m, 0, 0});
    const int i0 = std::clamp(all.column(box.min_x), 0, all.nx);
    const int j0 = std::clamp(all.row(box.min_y), 0, all.ny);
    const int i1 = std::clamp(all.column(box.max_x) + 1, i0, all.nx);
    const int j1 = std::clamp(all.row(box.max_y) + 1, j0, all.ny);
    Raster<float> part(
        Grid{all.x0 + i0 * all.cell_m, all.y0 + j0 * all.cell_m, all.cell_m, i1 - i0, j1 - j0});
    for (int j = j0; j < j1; ++j) {
        for (int i = i0; i < i1; ++i) part(i - i0, j - j0) = raster(i, j);
    }
    return part;
}

}  // namespace haylane
