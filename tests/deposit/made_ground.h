#pragma once
// Small grounds made by hand or at random for the tests of deposit and of choosing lines.

#include "core/base/random.h"
#include "core/deposit/pasture_ground.h"

#include <cstdint>

namespace haylane::testing {

inline void count_cells(PastureGround& ground) {
    ground.cells = 0;
    ground.target_cells = 0;
    for (std::size_t c = 0; c < ground.mask.values.size(); ++c) {
        ground.cells += ground.mask.values[c];
        ground.target_cells += ground.target.values[c];
    }
}

// Every cell of the grid in the pasture and in the target.
inline PastureGround full_ground(const Grid& grid) {
    PastureGround ground;
    ground.pasture = PastureId::at(0);
    ground.mask = Raster<std::uint8_t>(grid, 1);
    ground.target = ground.mask;
    count_cells(ground);
    return ground;
}

// Each cell in the mask with chance `inside_ratio`, at least one of them; two thirds are target.
inline PastureGround ragged_ground(const Grid& grid, double inside_ratio, Random& random) {
    PastureGround ground = full_ground(grid);
    for (auto& cell : ground.mask.values) cell = random.uniform() < inside_ratio ? 1 : 0;
    ground.mask.values[random.below(ground.mask.values.size())] = 1;
    for (std::size_t c = 0; c < ground.mask.values.size(); ++c) {
        ground.target.values[c] = ground.mask.values[c] != 0 && random.uniform() < 0.67 ? 1 : 0;
    }
    count_cells(ground);
    return ground;
}

inline double total(const Raster<double>& raster) {
    double sum = 0.0;
    for (const double value : raster.values) sum += value;
    return sum;
}

inline bool nothing_outside(const PastureGround& ground, const Raster<double>& raster) {
    for (std::size_t c = 0; c < raster.values.size(); ++c) {
        if (ground.mask.values[c] == 0 && raster.values[c] != 0.0) return false;
    }
    return true;
}

inline double least(const Raster<double>& raster) {
    double value = 0.0;
    for (const double v : raster.values) value = v < value ? v : value;
    return value;
}

}  // namespace haylane::testing
