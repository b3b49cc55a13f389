// Prints how plans compare with feeding at the gate and with the next strip every day, as a table:
// J, evenness over the pasture, and the whole haul. Arguments: none.
#include "tests/support/baselines.h"

#include "core/base/units.h"
#include "tests/support/baseline_ranches.h"

#include <chrono>
#include <cstdio>

#include <fmt/format.h>

namespace haylane {
namespace {

void print_row(const char* name, const testing::WayOfFeeding& way) {
    fmt::print("| {} | {:.3f} | {:.2f} | {:.2f} | {:.1f} | {:.0f} | {:.0f} |\n", name,
               way.objective, way.cv, way.cu, way.distance_m / units::kMetersPerMile,
               way.time_s / 60.0, way.cost.value_or(0.0));
}

void compare(CheckedRanch ranch, int days) {
    const auto from = std::chrono::steady_clock::now();
    const PlanRequest request{.from = testing::baseline_day(), .days = days};
    PlanRequest free = request;
    free.order = LineOrder::free;
    auto kept = keep_plan(ranch, request);
    auto freely = keep_plan(ranch, free);
    if (!kept || !freely) {
        const Error error = kept ? freely.error() : kept.error();
        fmt::print(stderr, "{}: {} {}\n", ranch.ranch.name, error.what, error.where);
        return;
    }
    const testing::StripLines strips = testing::strip_lines(*kept);
    fmt::print("\n{}, {} days, {} bales\n\n", ranch.ranch.name, days,
               kept->result.plan.totals.bales);
    fmt::print(
        "| way | J | CV | CU | miles | min | $ |\n| --- | ---: | ---: | ---: | ---: | ---: "
        "| ---: |\n");
    print_row("same place by the gate", testing::evaluated(*kept, testing::gate_lines(*kept)));
    print_row("next strip each day", testing::evaluated(*kept, strips.lines));
    print_row("plan", testing::evaluated(*kept, testing::planned_lines(*kept)));
    print_row("plan, free order", testing::evaluated(*freely, testing::planned_lines(*freely)));
    fmt::print("\nstrips skipped {}, {:.0f} s\n", strips.skipped,
               std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count());
    std::fflush(stdout);
}

}  // namespace
}  // namespace haylane

int main() {
    using namespace haylane;
    compare(testing::quarter_section(), 14);
    compare(testing::creek_ell(), 14);
    compare(testing::steep_hills(), 14);
    compare(testing::quarter_section(), 60);
    return 0;
}
