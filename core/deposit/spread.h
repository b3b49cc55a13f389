#pragma once
// Spreads amounts over the cells of one pasture by a square-cut Gaussian, inside the fence only and
// conserving mass exactly: D(y) = m(y) sum_x K(x-y) q(x)/Z(x), Z(x) = sum_y K(x-y) m(y).
// The adjoint is written out beside it: (S'u)(x) = (1/Z(x)) sum_y K(x-y) m(y) u(y).
// Cost: two separable passes, O(cells x radius).

#include <cstdint>
#include <vector>

#include "core/geometry/raster.h"

namespace haylane {

class Spread {
  public:
    Spread(const Raster<std::uint8_t>& mask, double sigma_m);

    // q outside the mask must be 0. Sum of the result equals the sum of q to 1e-9 relative.
    [[nodiscard]] Raster<double> forward(const Raster<double>& q) const;
    [[nodiscard]] Raster<double> adjoint(const Raster<double>& u) const;
    [[nodiscard]] int radius_cells() const { return static_cast<int>(taps_.size()) - 1; }

  private:
    Raster<std::uint8_t> mask_;
    std::vector<double> taps_;  // taps_[k] = exp(-(k cell)^2 / (2 sigma^2)), k = 0..3 sigma/cell
    Raster<double> z_;
};

}  // namespace haylane
