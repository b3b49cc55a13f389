// What dragging a line costs: every feeding of a week on the sample ranch moved a little, legal or
// not, with all its figures told. Making what is kept is measured beside it.
#include "app/session/open_ranch.h"
#include "core/plan/move_line.h"
#include "gis/book/make_book.h"

#include <filesystem>
#include <string>

#include <benchmark/benchmark.h>

namespace haylane {
namespace {

namespace fs = std::filesystem;

// A week, planned once for all measurements.
struct Week {
    OpenRanch open;
    KeptPlan plan;
};

Result<Week> make_week() {
    const fs::path book = fs::temp_directory_path() / "haylane-move-bench.gpkg";
    const auto made =
        make_book(fs::path(HAYLANE_SOURCE_DIR) / "sample-maps/brindle-coulee", book, true);
    if (!made) return fail(made.error());
    auto open = open_ranch(book);
    fs::remove(book);
    if (!open) return fail(open.error());
    Week week{std::move(*open), {}};
    week.open.checked.ranch.settings.max_candidates = 250;  // the plan itself is not measured
    return week;
}

Week* the_week() {
    static Result<Week> week = make_week();
    if (!week) return nullptr;
    if (week->plan.context == nullptr) {
        auto plan = keep_plan(week->open.checked, {.from = *parse_day("2027-01-11"), .days = 7});
        if (!plan) return nullptr;
        week->plan = std::move(*plan);
    }
    return &*week;
}

MultiPolyline shifted_lines(const PlannedFeeding& feeding, double by_m) {
    MultiPolyline lines;
    for (const PlannedLine& line : feeding.lines) {
        lines.push_back(line.path);
        for (Point& p : lines.back()) p = p + Point{by_m, -0.5 * by_m};
    }
    return lines;
}

void move_line(benchmark::State& state) {
    Week* week = the_week();
    if (week == nullptr) return state.SkipWithError("the sample ranch has no plan");
    LineMover mover(week->plan);
    const auto& feedings = week->plan.result.plan.feedings;
    std::size_t at = 0;
    int legal = 0;
    for (auto step : state) {
        benchmark::DoNotOptimize(step);
        const std::size_t f = at % feedings.size();
        const double by_m = static_cast<double>(at++ / feedings.size() % 9) - 4.0;
        const auto moved = mover.move(f, shifted_lines(feedings[f], 5.0 * by_m));
        if (moved && moved->broken.empty()) ++legal;
    }
    state.counters["legal"] = static_cast<double>(legal) / static_cast<double>(at);
}
BENCHMARK(move_line)->Unit(benchmark::kMillisecond);

void take_up_a_plan(benchmark::State& state) {
    Week* week = the_week();
    if (week == nullptr) return state.SkipWithError("the sample ranch has no plan");
    for (auto step : state) {
        benchmark::DoNotOptimize(step);
        LineMover mover(week->plan);
        benchmark::DoNotOptimize(mover);
    }
}
BENCHMARK(take_up_a_plan)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace haylane

BENCHMARK_MAIN();
