#pragma once
// Spreads amounts over the cells of one pasture by a square-cut Gaussian, inside the fence only and
// conserving mass exactly: D(y) = m(y) sum_x K(x-y) q(x)/Z(x), Z(x) = sum_y K(x-y) m(y).
// The adjoint is written out beside it: (S'u)(x) = (1/Z(x)) sum_y K(x-y) m(y) u(y).
// sigma 0, or less than a third of a cell, leaves amounts where they are. Const members may be
// called from several threads. Cost: two separable passes, O(cells x radius); cells that are 0 at
// a row's ends, and cells outside a Band, cost nothing.

#include "core/deposit/band.h"
#include "core/geometry/raster.h"

#include <cstdint>
#include <vector>

namespace haylane {

class Spread {
  public:
    Spread(const Raster<std::uint8_t>& mask, double sigma_m);

    // q outside the mask must be 0. Sum of the result equals the sum of q to 1e-9 relative.
    [[nodiscard]] Raster<double> forward(const Raster<double>& q) const;
    [[nodiscard]] Raster<double> adjoint(const Raster<double>& u) const;
    // The same for values that take a thin band of the grid.
    [[nodiscard]] Band forward(Band q) const;
    [[nodiscard]] Band adjoint(Band u) const;
    [[nodiscard]] int radius_cells() const { return static_cast<int>(taps_.size()) - 1; }

  private:
    [[nodiscard]] Band along_rows(const Band& in) const;
    [[nodiscard]] Band along_columns(const Band& in) const;

    std::vector<double> taps_;  // taps_[k] = exp(-(k cell)^2 / (2 sigma^2)), k = 0..3 sigma/cell
    Raster<double> mask_;       // m, as 1.0 and 0.0
    Raster<double> inverse_z_;  // 1/Z in the mask, 0 outside
};

}  // namespace haylane
