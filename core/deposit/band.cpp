// Plain loops in row order, so that sums come out the same on every run.
#include "core/deposit/band.h"

#include <algorithm>

namespace haylane {

void Band::allocate() {
    std::size_t total = 0;
    for (Run& run : rows) {
        run.start = total;
        if (run.hi > run.lo) total += static_cast<std::size_t>(run.hi - run.lo);
    }
    values.assign(total, 0.0);
}

Band band_of(const Raster<double>& raster) {
    const Grid& grid = raster.grid;
    Band band;
    band.rows.resize(static_cast<std::size_t>(grid.ny));
    for (int j = 0; j < grid.ny; ++j) {
        Band::Run& run = band.rows[static_cast<std::size_t>(j)];
        const double* row = raster.values.data() + grid.at(0, j);
        int lo = 0;
        int hi = grid.nx;
        while (lo < hi && row[lo] == 0.0) ++lo;
        while (hi > lo && row[hi - 1] == 0.0) --hi;
        run.lo = lo;
        run.hi = hi;
    }
    band.allocate();
    for (int j = 0; j < grid.ny; ++j) {
        const Band::Run& run = band.run(j);
        const double* row = raster.values.data() + grid.at(0, j);
        std::copy(row + run.lo, row + run.hi, band.row_values(j));
    }
    return band;
}

Band band_of(std::span<const CellAmount> cells, const Grid& grid) {
    Band band;
    if (cells.empty()) return band;
    const auto width = static_cast<std::uint32_t>(grid.nx);
    int low = grid.ny;
    int high = -1;
    for (const CellAmount& c : cells) {
        low = std::min(low, static_cast<int>(c.cell / width));
        high = std::max(high, static_cast<int>(c.cell / width));
    }
    band.first_row = low;
    const int rows = high - low + 1;
    band.rows.assign(static_cast<std::size_t>(rows), Band::Run{grid.nx, 0, 0});
    for (const CellAmount& c : cells) {
        Band::Run& run = band.rows[c.cell / width - static_cast<std::uint32_t>(low)];
        const int i = static_cast<int>(c.cell % width);
        run.lo = std::min(run.lo, i);
        run.hi = std::max(run.hi, i + 1);
    }
    band.allocate();
    for (const CellAmount& c : cells) {
        const int j = static_cast<int>(c.cell / width);
        const int i = static_cast<int>(c.cell % width);
        band.row_values(j)[i - band.run(j).lo] += c.amount;
    }
    return band;
}

Raster<double> raster_of(const Band& band, const Grid& grid) {
    Raster<double> raster(grid);
    add_band(band, 1.0, raster);
    return raster;
}

void add_band(const Band& band, double factor, Raster<double>& into) {
    for (int j = band.first_row; j < band.row_end(); ++j) {
        const Band::Run& run = band.run(j);
        if (run.hi <= run.lo) continue;
        const double* from = band.row_values(j);
        double* to = into.values.data() + into.grid.at(run.lo, j);
        for (int i = 0; i < run.hi - run.lo; ++i) to[i] += factor * from[i];
    }
}

Band sum(const Band& a, const Band& b) {
    if (a.rows.empty()) return b;
    if (b.rows.empty()) return a;
    Band total;
    total.first_row = std::min(a.first_row, b.first_row);
    const int end = std::max(a.row_end(), b.row_end());
    for (int j = total.first_row; j < end; ++j) {
        Band::Run run;
        for (const Band* part : {&a, &b}) {
            if (j < part->first_row || j >= part->row_end()) continue;
            const Band::Run& own = part->run(j);
            if (own.hi <= own.lo) continue;
            run = run.hi <= run.lo ? own
                                   : Band::Run{std::min(run.lo, own.lo), std::max(run.hi, own.hi)};
        }
        total.rows.push_back(run);
    }
    total.allocate();
    for (const Band* part : {&a, &b}) {
        for (int j = part->first_row; j < part->row_end(); ++j) {
            const Band::Run& own = part->run(j);
            if (own.hi <= own.lo) continue;
            double* to = total.row_values(j) + (own.lo - total.run(j).lo);
            const double* from = part->row_values(j);
            for (int i = 0; i < own.hi - own.lo; ++i) to[i] += from[i];
        }
    }
    return total;
}

Band kept(Band band, const Raster<std::uint8_t>& weight) {
    for (int j = band.first_row; j < band.row_end(); ++j) {
        const Band::Run run = band.run(j);
        if (run.hi <= run.lo) continue;
        double* values = band.row_values(j);
        const std::uint8_t* w = weight.values.data() + weight.grid.at(run.lo, j);
        for (int i = 0; i < run.hi - run.lo; ++i) {
            if (w[i] == 0) values[i] = 0.0;
        }
    }
    return band;
}

Band scaled(Band band, double factor) {
    for (double& value : band.values) value *= factor;
    return band;
}

double dot(const Band& a, const Band& b, const Raster<std::uint8_t>& weight) {
    double total = 0.0;
    const int from = std::max(a.first_row, b.first_row);
    const int to = std::min(a.row_end(), b.row_end());
    for (int j = from; j < to; ++j) {
        const int lo = std::max(a.run(j).lo, b.run(j).lo);
        const int hi = std::min(a.run(j).hi, b.run(j).hi);
        if (hi <= lo) continue;
        const double* ra = a.row_values(j) + (lo - a.run(j).lo);
        const double* rb = b.row_values(j) + (lo - b.run(j).lo);
        const std::uint8_t* rw = weight.values.data() + weight.grid.at(lo, j);
        double row = 0.0;
        for (int i = 0; i < hi - lo; ++i) row += rw[i] != 0 ? ra[i] * rb[i] : 0.0;
        total += row;
    }
    return total;
}

double dot(const Band& a, const Raster<double>& b, const Raster<std::uint8_t>& weight) {
    double total = 0.0;
    for (int j = a.first_row; j < a.row_end(); ++j) {
        const Band::Run& run = a.run(j);
        if (run.hi <= run.lo) continue;
        const double* ra = a.row_values(j);
        const double* rb = b.values.data() + b.grid.at(run.lo, j);
        const std::uint8_t* rw = weight.values.data() + weight.grid.at(run.lo, j);
        double row = 0.0;
        for (int i = 0; i < run.hi - run.lo; ++i) row += rw[i] != 0 ? ra[i] * rb[i] : 0.0;
        total += row;
    }
    return total;
}

}  // namespace haylane
