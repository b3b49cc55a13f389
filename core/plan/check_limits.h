#pragma once
// Looks a finished plan over against the pastures' per-acre limits, from the ranch's own feedings
// and the plan's bales and lines.

#include "core/plan/check_plan.h"

namespace haylane {

// A pasture's limit is broken where a plan's lines add to target ground more than what lies there
// on record, and falls there wherever lines go, leaves room for; `by` in kg a m2, through the
// window. Pastures whose ground cannot be worked out are left out.
[[nodiscard]] std::vector<BrokenRule> broken_limits(const Ranch& ranch, const Plan& plan);

}  // namespace haylane
