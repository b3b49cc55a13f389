#include "core/season/load_figures.h"

namespace haylane {

const Raster<std::uint8_t>& judged_cells(const PastureGround& ground) {
    return ground.target_cells > 0 ? ground.target : ground.mask;
}

LoadFigures load_figures(const PastureGround& ground, double area_m2,
                         const Raster<double>& per_cell, const Raster<double>& seen,
                         std::optional<double> limit_per_m2) {
    LoadFigures figures;
    figures.limit_per_m2 = limit_per_m2;
    for (const double value : per_cell.values) figures.total += value;
    if (area_m2 > 0.0) figures.mean_per_m2 = figures.total / area_m2;
    const Raster<std::uint8_t>& judged = judged_cells(ground);
    const double cell_m2 = seen.grid.cell_area_m2();
    std::vector<double> values;
    for (std::size_t c = 0; c < seen.values.size(); ++c) {
        if (judged.values[c] != 0) values.push_back(seen.values[c] / cell_m2);
    }
    figures.even = evenness(values);
    if (!figures.even) return figures;
    const Evenness& even = *figures.even;
    figures.feed_ground_mean_per_m2 = even.mean;
    figures.low_quarter_per_m2 = even.low_quarter_ratio * even.mean;
    figures.high_tenth_per_m2 = even.high_tenth;
    figures.max_per_m2 = even.max;
    if (limit_per_m2) figures.over_limit_ratio = share_over(values, *limit_per_m2);
    figures.curve = deposit_curve(values, kCurveSteps);
    return figures;
}

}  // namespace haylane
