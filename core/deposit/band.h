#pragma once
// Values on a grid kept only where they may differ from 0: consecutive rows, each over one run of
// columns. What a line leaves takes a thin band of a pasture; work on it costs its own cells.

#include "core/geometry/raster.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace haylane {

// An amount in one cell, by its place in a raster's values.
struct CellAmount {
    std::uint32_t cell = 0;
    double amount = 0.0;
    friend bool operator==(const CellAmount&, const CellAmount&) = default;
};

struct Band {
    struct Run {
        int lo = 0;             // first column
        int hi = 0;             // one past the last; lo >= hi: empty
        std::size_t start = 0;  // of the run in `values`
    };
    int first_row = 0;
    std::vector<Run> rows;
    std::vector<double> values;

    [[nodiscard]] int row_end() const { return first_row + static_cast<int>(rows.size()); }
    // Allocates zeros for the runs as they stand; sets every `start`.
    void allocate();
    [[nodiscard]] double* row_values(int j) {
        return values.data() + rows[static_cast<std::size_t>(j - first_row)].start;
    }
    [[nodiscard]] const double* row_values(int j) const {
        return values.data() + rows[static_cast<std::size_t>(j - first_row)].start;
    }
    [[nodiscard]] const Run& run(int j) const {
        return rows[static_cast<std::size_t>(j - first_row)];
    }
};

// Each row from its first to its last value that is not 0.
[[nodiscard]] Band band_of(const Raster<double>& raster);
// Amounts in the same cell add up.
[[nodiscard]] Band band_of(std::span<const CellAmount> cells, const Grid& grid);
[[nodiscard]] Raster<double> raster_of(const Band& band, const Grid& grid);
// into += factor x band.
void add_band(const Band& band, double factor, Raster<double>& into);
// a + b, over the runs of both.
[[nodiscard]] Band sum(const Band& a, const Band& b);
// The band with every cell of weight 0 set to 0.
[[nodiscard]] Band kept(Band band, const Raster<std::uint8_t>& weight);
// The band times a factor.
[[nodiscard]] Band scaled(Band band, double factor);
// Sum over cells of weight x a x b, where weight is 0 or 1.
[[nodiscard]] double dot(const Band& a, const Band& b, const Raster<std::uint8_t>& weight);
[[nodiscard]] double dot(const Band& a, const Raster<double>& b,
                         const Raster<std::uint8_t>& weight);

}  // namespace haylane
