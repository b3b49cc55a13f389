// Ways over a ranch of twelve pastures with ponds and winding trails: building, and one question.
#include "core/base/random.h"
#include "core/haul/travel_map.h"

#include <cmath>

#include <benchmark/benchmark.h>

namespace haylane {
namespace {

constexpr double kSide = 800.0;

MultiPolygon square(double x, double y) {
    return {Polygon{{{x, y}, {x + kSide, y}, {x + kSide, y + kSide}, {x, y + kSide}}, {}}};
}

OffLimits pond(Point middle, double radius) {
    OffLimits o;
    o.kind = OffLimitsKind::water;
    Ring ring;
    for (int k = 0; k < 24; ++k) {
        const double angle = -k * 6.283185307179586 / 24.0;
        ring.push_back(middle + along_azimuth(angle) * radius);
    }
    o.area = {Polygon{ring, {}}};
    return o;
}

Ranch big_ranch() {
    Ranch ranch;
    for (int row = 0; row < 3; ++row) {
        Trail lane;
        lane.name = "Lane " + std::to_string(row);
        lane.surface = row == 1 ? Surface::dirt : Surface::two_track;
        Polyline path;
        const double y = (row + 0.5) * kSide;
        for (int step = 0; step <= 170; ++step) {
            const double x = -200.0 + 20.0 * step;
            path.push_back({x, y + 15.0 * std::sin(x / 127.3239544735163)});
        }
        lane.path = {path};
        ranch.trails.push_back(lane);
        for (int column = 0; column < 4; ++column) {
            Pasture p;
            p.name = "P" + std::to_string(ranch.pastures.size());
            p.shape = square(column * kSide, row * kSide);
            ranch.pastures.push_back(p);
            Gate gate;
            gate.name = "G" + p.name;
            gate.at = {column * kSide, y};
            ranch.gates.push_back(gate);
            const Point corner{column * kSide, row * kSide};
            ranch.off_limits.push_back(pond(corner + Point{200, 200}, 60.0));
            ranch.off_limits.push_back(pond(corner + Point{550, 620}, 90.0));
        }
    }
    Trail road;
    road.name = "Road";
    road.surface = Surface::gravel;
    road.path = {{{-200, 0}, {-200, 3 * kSide}}};
    ranch.trails.push_back(road);
    Yard yard;
    yard.name = "Home";
    yard.at = {-205, 900};
    ranch.yards = {yard};
    return ranch;
}

void build_map(benchmark::State& state) {
    const Ranch ranch = big_ranch();
    for (auto step : state) {
        benchmark::DoNotOptimize(step);
        TravelMap map(ranch, {});
        benchmark::DoNotOptimize(map);
    }
}
BENCHMARK(build_map)->Unit(benchmark::kMillisecond);

template <class Ask>
void ask_map(benchmark::State& state, Ask ask) {
    const Ranch ranch = big_ranch();
    const TravelMap map(ranch, {});
    Random random(1);
    for (auto step : state) {
        benchmark::DoNotOptimize(step);
        const double column = std::floor(random.uniform() * 4.0);
        const double row = std::floor(random.uniform() * 3.0);
        const Point p{(column + 0.02 + 0.96 * random.uniform()) * kSide,
                      (row + 0.02 + 0.96 * random.uniform()) * kSide};
        const auto pasture = PastureId{static_cast<int>(row * 4.0 + column)};
        benchmark::DoNotOptimize(ask(map, pasture, p));
    }
}
BENCHMARK_CAPTURE(ask_map, time, [](const TravelMap& map, PastureId pasture, Point p) {
    return map.time_s(YardId{0}, pasture, p);
});
BENCHMARK_CAPTURE(ask_map, route, [](const TravelMap& map, PastureId pasture, Point p) {
    return map.route(YardId{0}, pasture, p);
});

}  // namespace
}  // namespace haylane

BENCHMARK_MAIN();
