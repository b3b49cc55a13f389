// A whole plan in free order on a large invented ranch: time, and how near the bound it comes.
#include "bench/large_ranch.h"
#include "core/plan/plan_days.h"

#include <benchmark/benchmark.h>

namespace haylane {
namespace {

// Arguments: days, and 1 for each line beside the last.
void plan_large_ranch(benchmark::State& state) {
    const CheckedRanch ranch = bench::large_ranch();
    PlanRequest request;
    request.from = bench::large_ranch_day();
    request.days = static_cast<int>(state.range(0));
    request.order = state.range(1) == 1 ? LineOrder::neighbour : LineOrder::free;
    for (auto step : state) {
        benchmark::DoNotOptimize(step);
        const auto result = plan_days(ranch, request);
        if (!result) {
            state.SkipWithError((result.error().what + " " + result.error().where).c_str());
            return;
        }
        const Optimality& o = result->plan.optimality;
        state.counters["feedings"] = static_cast<double>(result->plan.feedings.size());
        state.counters["candidates"] = o.candidates;
        state.counters["gap"] = o.gap;
        state.counters["gap_of_gain"] = o.gap_of_gain.value_or(0.0);
    }
}
BENCHMARK(plan_large_ranch)
    ->ArgNames({"days", "beside"})
    ->Args({7, 0})
    ->Args({14, 0})
    ->Args({14, 1})
    ->Iterations(1)
    ->Unit(benchmark::kSecond)
    ->UseRealTime();

}  // namespace
}  // namespace haylane

BENCHMARK_MAIN();
