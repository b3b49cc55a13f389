// Spread over one pasture beside the direct double sum over all pairs of cells within reach: the
// same work without the kernel's separability. 300 x 300 m, cells of 3 m.
#include "core/base/random.h"
#include "core/deposit/spread.h"

#include <algorithm>
#include <cmath>

#include <benchmark/benchmark.h>

namespace haylane {
namespace {

constexpr double kSigma_m = 6.0;

Raster<std::uint8_t> whole_mask(int side) {
    return Raster<std::uint8_t>(Grid{0.0, 0.0, 3.0, side, side}, 1);
}

Raster<double> amounts(int side) {
    Random random(1);
    Raster<double> q(Grid{0.0, 0.0, 3.0, side, side});
    for (double& value : q.values) value = random.uniform();
    return q;
}

void separable(benchmark::State& state) {
    const int side = static_cast<int>(state.range(0));
    const Spread spread(whole_mask(side), kSigma_m);
    const Raster<double> q = amounts(side);
    for (auto step : state) {
        benchmark::DoNotOptimize(step);
        benchmark::DoNotOptimize(spread.forward(q));
    }
    state.SetItemsProcessed(state.iterations() * side * side);
}
BENCHMARK(separable)->Arg(100)->Arg(500)->Unit(benchmark::kMillisecond);

Raster<double> direct(const Raster<double>& q, const Raster<double>& z, int radius) {
    const Grid& g = q.grid;
    Raster<double> spread(g);
    for (int j = 0; j < g.ny; ++j) {
        for (int i = 0; i < g.nx; ++i) {
            for (int b = std::max(0, j - radius); b <= std::min(g.ny - 1, j + radius); ++b) {
                for (int a = std::max(0, i - radius); a <= std::min(g.nx - 1, i + radius); ++a) {
                    const double away = std::hypot(a - i, b - j) * g.cell_m / kSigma_m;
                    spread(i, j) += std::exp(-0.5 * away * away) * q(a, b) / z(a, b);
                }
            }
        }
    }
    return spread;
}

void direct_double_sum(benchmark::State& state) {
    const int side = static_cast<int>(state.range(0));
    const Raster<double> q = amounts(side);
    const Raster<double> ones(q.grid, 1.0);
    const int radius = Spread(whole_mask(side), kSigma_m).radius_cells();
    const Raster<double> z = direct(ones, ones, radius);
    for (auto step : state) {
        benchmark::DoNotOptimize(step);
        benchmark::DoNotOptimize(direct(q, z, radius));
    }
    state.SetItemsProcessed(state.iterations() * side * side);
}
BENCHMARK(direct_double_sum)->Arg(100)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace haylane

BENCHMARK_MAIN();
