// The haul table of a large ranch with terrain: 20 yards by 200 pastures, one rig.
#include "core/haul/haul_account.h"

#include <cmath>
#include <cstdlib>
#include <string>

#include <benchmark/benchmark.h>

namespace haylane {
namespace {

constexpr double kSide = 400.0;
constexpr int kColumns = 20;
constexpr int kRows = 10;

// Pastures in rows, a gravel lane through each row, a road along one end.
Ranch wide_ranch() {
    Ranch ranch;
    for (int row = 0; row < kRows; ++row) {
        const double y = (row + 0.5) * kSide;
        Trail lane;
        lane.name = "Lane " + std::to_string(row);
        lane.surface = Surface::dirt;
        lane.path = {{{-50.0, y}, {kColumns * kSide - 50.0, y}}};
        ranch.trails.push_back(lane);
        for (const double x : {-50.0, kColumns * kSide - 100.0}) {
            Yard yard;
            yard.name = "Y" + std::to_string(ranch.yards.size());
            yard.at = {x, y};
            ranch.yards.push_back(yard);
        }
        for (int column = 0; column < kColumns; ++column) {
            const double x = column * kSide;
            Pasture pasture;
            pasture.name = "P" + std::to_string(ranch.pastures.size());
            pasture.shape = {Polygon{{{x, row * kSide},
                                      {x + kSide, row * kSide},
                                      {x + kSide, (row + 1) * kSide},
                                      {x, (row + 1) * kSide}},
                                     {}}};
            ranch.pastures.push_back(pasture);
            Gate gate;
            gate.name = "G" + pasture.name;
            gate.at = {x, y};
            ranch.gates.push_back(gate);
        }
    }
    Trail road;
    road.name = "Road";
    road.surface = Surface::gravel;
    road.path = {{{-50.0, 0.0}, {-50.0, kRows * kSide}}};
    ranch.trails.push_back(road);
    Rig rig;
    rig.name = "Rig";
    rig.bales_per_trip = 4;
    rig.mass_kg = 10000.0;
    rig.pto_w = 80000.0;
    ranch.rigs.push_back(rig);
    TerrainData terrain;
    terrain.own_cell_m = 10.0;
    terrain.elevation_m = Raster<float>(Grid{-100.0, -100.0, 10.0, 830, 430});
    for (int j = 0; j < 430; ++j)
        for (int i = 0; i < 830; ++i)
            terrain.elevation_m(i, j) =
                static_cast<float>(700.0 + 8.0 * std::sin(i / 25.0) * std::cos(j / 30.0));
    ranch.terrain = std::move(terrain);
    return ranch;
}

void haul_table_20_yards_200_pastures(benchmark::State& state) {
    const Ranch ranch = wide_ranch();
    const Terrain terrain(*ranch.terrain);
    const HaulRequest request{.day = haul_day(ranch, sys_days(std::chrono::days(20800)))};
    std::size_t reached = 0;
    for (auto _ : state) {
        const auto ways = HaulWays::find(ranch, terrain, request);
        if (!ways) std::abort();
        const HaulAccount account = haul_account(*ways);
        reached = 0;
        for (const HaulTrip& trip : account.trips) reached += trip.reached ? 1 : 0;
    }
    if (reached != 4000) std::abort();
    state.counters["trips"] = static_cast<double>(reached);
}
BENCHMARK(haul_table_20_yards_200_pastures)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace haylane

BENCHMARK_MAIN();
