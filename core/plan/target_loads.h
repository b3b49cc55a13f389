#pragma once
// What pastures have had this season, against what the rancher says they want.

#include "core/plan/plan_request.h"
#include "core/ranch/ranch.h"

#include <vector>

namespace haylane {

// Of every pasture with a target, by nutrient: the mean load on its feed ground (on all of it where
// none may be fed) from feedings on record since the season of `from` began and before `from`, and
// with what `loads` say the plan adds. The pasture with the least share of its target comes first;
// of equal ones the first in file order. Cost: one deposit map a pasture with targets.
[[nodiscard]] std::vector<TargetLoad> target_loads(const Ranch& ranch,
                                                   const std::vector<PastureLoad>& loads,
                                                   sys_days from);

}  // namespace haylane
