// Summed-area tables (Crow 1984) of bales and of feed-ground cells give each window in four reads.

#include "app/papers/acre_loads.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

// sums(i, j) = total over cells left of i and below j.
class Sums {
  public:
    template <class ValueAt>
    Sums(const Grid& grid, ValueAt value_at)
        : nx_(grid.nx),
          values_(static_cast<std::size_t>(grid.nx + 1) * static_cast<std::size_t>(grid.ny + 1)) {
        for (int j = 0; j < grid.ny; ++j) {
            double row = 0.0;
            for (int i = 0; i < grid.nx; ++i) {
                row += value_at(i, j);
                values_[at(i + 1, j + 1)] = values_[at(i + 1, j)] + row;
            }
        }
    }
    // Over columns [i, i + side) and rows [j, j + side).
    [[nodiscard]] double window(int i, int j, int side) const {
        return values_[at(i + side, j + side)] - values_[at(i, j + side)] -
               values_[at(i + side, j)] + values_[at(i, j)];
    }

  private:
    [[nodiscard]] std::size_t at(int i, int j) const {
        return static_cast<std::size_t>(j) * static_cast<std::size_t>(nx_ + 1) +
               static_cast<std::size_t>(i);
    }
    int nx_;
    std::vector<double> values_;
};

}  // namespace

std::optional<AcreLoads> acre_loads(const PastureGround& ground, const DepositMap& map) {
    const Grid& grid = map.bales.grid;
    if (grid.size() == 0 || !(ground.mask.grid == grid)) return std::nullopt;
    const bool has_target = ground.target_cells > 0 && ground.target.grid == grid;
    const Raster<std::uint8_t>& feed = has_target ? ground.target : ground.mask;
    const auto on_feed = [&](int i, int j) { return feed(i, j) != 0; };
    const Sums cells(grid, [&](int i, int j) { return on_feed(i, j) ? 1.0 : 0.0; });
    const Sums bales(grid, [&](int i, int j) { return on_feed(i, j) ? map.bales(i, j) : 0.0; });
    const int side =
        std::clamp(static_cast<int>(std::lround(std::sqrt(units::kM2PerAcre) / grid.cell_m)), 1,
                   std::max(1, std::min(grid.nx, grid.ny)));
    std::optional<AcreLoads> loads;
    for (int j = 0; j + side <= grid.ny; ++j) {
        for (int i = 0; i + side <= grid.nx; ++i) {
            const double count = cells.window(i, j, side);
            if (count < 0.5 * side * side) continue;
            const double load =
                std::max(0.0, bales.window(i, j, side)) / (count * grid.cell_area_m2());
            if (!loads) loads = AcreLoads{load, load};
            loads->lightest_bales_per_m2 = std::min(loads->lightest_bales_per_m2, load);
            loads->heaviest_bales_per_m2 = std::max(loads->heaviest_bales_per_m2, load);
        }
    }
    return loads;
}

}  // namespace haylane
