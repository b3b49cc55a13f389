// The account of a ranch of 20 x 20 km, a hundred pastures, cells of 3 m, with the P2O5 raster
// written as it goes: time and peak memory for 1e3, 1e4 and 1e5 feedings over two seasons.
#include "core/base/random.h"
#include "core/season/ground_account.h"
#include "gis/raster/ground_rasters.h"

#include <filesystem>

#include <benchmark/benchmark.h>
#include <sys/resource.h>

namespace haylane {
namespace {

constexpr int kAcross = 10;
constexpr double kSide = 2000.0;

Ranch wide_ranch(int feedings) {
    Ranch ranch;
    for (int p = 0; p < kAcross * kAcross; ++p) {
        const double x = (p % kAcross) * kSide;
        const double y = (p / kAcross) * kSide;
        ranch.pastures.push_back(
            {.name = "P" + std::to_string(p),
             .shape = {{{{x, y}, {x + kSide, y}, {x + kSide, y + kSide}, {x, y + kSide}}, {}}}});
        ranch.water.push_back({"tank", {x + 900.0, y + 700.0}});
    }
    ranch.rigs.push_back({.name = "Rig"});
    Random random(1);
    const sys_days first = *parse_day("2025-11-01");
    for (int f = 0; f < feedings; ++f) {
        const int p = f % (kAcross * kAcross);
        const Point at{(p % kAcross) * kSide + 100.0 + 1500.0 * random.uniform(),
                       (p / kAcross) * kSide + 100.0 + 1700.0 * random.uniform()};
        const Point to = at + along_azimuth(6.28 * random.uniform()) * 90.0;
        const sys_days day = first + std::chrono::days{static_cast<int>(random.below(500))};
        ranch.feedings.push_back({.from = day,
                                  .to = day,
                                  .pasture = PastureId::at(static_cast<std::size_t>(p)),
                                  .rig = RigId::at(0),
                                  .bales = 3.0,
                                  .bale_dm_kg = 500.0,
                                  .shape = MultiPolyline{{at, to}}});
    }
    return ranch;
}

void account(benchmark::State& state) {
    const Ranch ranch = wide_ranch(static_cast<int>(state.range(0)));
    const Frame frame = *Frame::centred({-105.0, 45.0});
    const std::filesystem::path file =
        std::filesystem::temp_directory_path() / "haylane-ground-bench.tif";
    for (auto step : state) {
        benchmark::DoNotOptimize(step);
        AccountRequest request;
        request.span = *season_named(ranch, "2026-27");
        request.uncertainty.draws = static_cast<int>(state.range(1));
        auto raster = GroundRaster::begin({file, "p2o5", "kg/ha", {}}, ranch_extent(ranch), frame);
        const AccountContext context(ranch, request);
        auto done = ground_account(context, [&](const PastureAccount&, const PastureMaps& maps) {
            return raster->add(maps.ground.mask, maps.span.deposit.p2o5_kg, 10000.0 / 9.0);
        });
        if (!done || !raster->finish()) state.SkipWithError("not done");
    }
    rusage use{};
    getrusage(RUSAGE_SELF, &use);
    state.counters["peak_mib"] = static_cast<double>(use.ru_maxrss) / 1024.0;
    std::filesystem::remove(file);
}
BENCHMARK(account)
    ->Args({1000, 0})
    ->Args({10000, 0})
    ->Args({100000, 0})
    ->Args({1000, 200})
    ->Iterations(1)
    ->Unit(benchmark::kSecond);

}  // namespace
}  // namespace haylane

BENCHMARK_MAIN();
