#pragma once
// Two ways to feed that need no plan, with a plan's own feedings, bales and evaluation: the nearest
// place every day, and the next parallel strip every day.

#include "core/plan/plan_days.h"

#include <optional>
#include <vector>

namespace haylane::testing {

// What laying the plan's feedings so gives, over its pasture.
struct WayOfFeeding {
    double objective = 0.0;  // J
    double cv = 0.0;         // of all that lies there then, through the window
    double cu = 0.0;
    double distance_m = 0.0;
    double time_s = 0.0;
    std::optional<double> cost;
};

// The plan's own lines.
[[nodiscard]] std::vector<Candidate> planned_lines(const KeptPlan& plan);
// The same place by the gate: of all candidates the nearest to drive to, whatever lies there.
[[nodiscard]] std::vector<Candidate> gate_lines(const KeptPlan& plan);
// The nearest straight line first, then each day the next strip a spacing on in the same heading,
// nearest piece first, off what was laid before; from the far side back to the first strip with
// room, and over all again when there is none. Strips are cut as densely as the planner's.
struct StripLines {
    std::vector<Candidate> lines;
    int skipped = 0;  // feedings that fit no strip: laid at the nearest place
};
[[nodiscard]] StripLines strip_lines(KeptPlan& plan);

// By the plan's own model, roads and loads. Plans of one pasture only.
[[nodiscard]] WayOfFeeding evaluated(KeptPlan& plan, const std::vector<Candidate>& lines);

}  // namespace haylane::testing
