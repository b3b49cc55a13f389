// K(dx, dy) = t(|dx|) t(|dy|), so a spread is: divide by Z, convolve rows, convolve columns, mask.
// The adjoint runs the same steps backwards (K is even). One code path serves whole rasters and
// thin bands: a raster is first cut down to the runs of each row that are not 0.
// Error: rounding only; about (2 radius + 1) terms a pass, so some 1e-15 relative.
#include "core/deposit/spread.h"

#include "core/base/require.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

std::vector<double> gaussian_taps(double sigma_m, double cell_m) {
    std::vector<double> taps{1.0};
    if (sigma_m <= 0.0) return taps;
    const int radius = static_cast<int>(std::floor(3.0 * sigma_m / cell_m + 1e-9));
    for (int k = 1; k <= radius; ++k) {
        const double away = k * cell_m / sigma_m;
        taps.push_back(std::exp(-0.5 * away * away));
    }
    return taps;
}

void multiply(Band& band, const Raster<double>& by) {
    for (int j = band.first_row; j < band.row_end(); ++j) {
        const Band::Run& run = band.run(j);
        if (run.hi <= run.lo) continue;
        double* values = band.row_values(j);
        const double* factors = by.values.data() + by.grid.at(run.lo, j);
        for (int i = 0; i < run.hi - run.lo; ++i) values[i] *= factors[i];
    }
}

// The innermost loop of all planning, so it takes wider registers where the machine has them. No
// fused multiply-add comes in: the sums are the same on every machine.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
[[gnu::target_clones("avx2", "default")]]
#endif
void add_scaled(const double* from, int count, double factor, double* to) {
    for (int i = 0; i < count; ++i) to[i] += factor * from[i];
}

}  // namespace

Spread::Spread(const Raster<std::uint8_t>& mask, double sigma_m)
    : taps_(gaussian_taps(sigma_m, mask.grid.cell_m)), mask_(mask.grid), inverse_z_(mask.grid) {
    for (std::size_t c = 0; c < mask.values.size(); ++c)
        mask_.values[c] = mask.values[c] ? 1.0 : 0.0;
    add_band(along_columns(along_rows(band_of(mask_))), 1.0, inverse_z_);
    for (std::size_t c = 0; c < mask.values.size(); ++c) {
        double& value = inverse_z_.values[c];
        value = mask.values[c] ? 1.0 / value : 0.0;
    }
}

Band Spread::along_rows(const Band& in) const {
    const int radius = radius_cells();
    Band out;
    out.first_row = in.first_row;
    out.rows = in.rows;
    for (Band::Run& run : out.rows) {
        if (run.hi <= run.lo) continue;
        run.lo = std::max(0, run.lo - radius);
        run.hi = std::min(mask_.grid.nx, run.hi + radius);
    }
    out.allocate();
    for (int j = in.first_row; j < in.row_end(); ++j) {
        const Band::Run& from = in.run(j);
        const Band::Run& to = out.run(j);
        for (int k = -radius; k <= radius; ++k) {
            const int lo = std::max(from.lo, to.lo - k);
            const int hi = std::min(from.hi, to.hi - k);
            if (hi <= lo) continue;
            add_scaled(in.row_values(j) + (lo - from.lo), hi - lo,
                       taps_[static_cast<std::size_t>(std::abs(k))],
                       out.row_values(j) + (lo + k - to.lo));
        }
    }
    return out;
}

Band Spread::along_columns(const Band& in) const {
    const int radius = radius_cells();
    Band out;
    if (in.rows.empty()) return out;
    out.first_row = std::max(0, in.first_row - radius);
    const int end = std::min(mask_.grid.ny, in.row_end() + radius);
    out.rows.assign(static_cast<std::size_t>(end - out.first_row), Band::Run{mask_.grid.nx, 0, 0});
    for (int j = out.first_row; j < end; ++j) {
        Band::Run& run = out.rows[static_cast<std::size_t>(j - out.first_row)];
        for (int s = std::max(in.first_row, j - radius); s < std::min(in.row_end(), j + radius + 1);
             ++s) {
            if (in.run(s).hi <= in.run(s).lo) continue;
            run.lo = std::min(run.lo, in.run(s).lo);
            run.hi = std::max(run.hi, in.run(s).hi);
        }
    }
    out.allocate();
    for (int j = out.first_row; j < end; ++j) {
        for (int s = std::max(in.first_row, j - radius); s < std::min(in.row_end(), j + radius + 1);
             ++s) {
            const Band::Run& from = in.run(s);
            if (from.hi <= from.lo) continue;
            add_scaled(in.row_values(s), from.hi - from.lo,
                       taps_[static_cast<std::size_t>(std::abs(s - j))],
                       out.row_values(j) + (from.lo - out.run(j).lo));
        }
    }
    return out;
}

Band Spread::forward(Band q) const {
    multiply(q, inverse_z_);
    Band spread = along_columns(along_rows(q));
    multiply(spread, mask_);
    return spread;
}

Band Spread::adjoint(Band u) const {
    multiply(u, mask_);
    Band gathered = along_columns(along_rows(u));
    multiply(gathered, inverse_z_);
    return gathered;
}

Raster<double> Spread::forward(const Raster<double>& q) const {
    require(q.grid == mask_.grid, "spread: amounts stand on another grid than the mask");
    return raster_of(forward(band_of(q)), mask_.grid);
}

Raster<double> Spread::adjoint(const Raster<double>& u) const {
    require(u.grid == mask_.grid, "spread: values stand on another grid than the mask");
    return raster_of(adjoint(band_of(u)), mask_.grid);
}

}  // namespace haylane
