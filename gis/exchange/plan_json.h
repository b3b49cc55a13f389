#pragma once
// A plan as the JSON document "haylane-plan/1" (docs/formats.md): SI numbers, dates ISO 8601,
// shares named _pct in percent, bearings in degrees clockwise from north, undefined values null, no
// NaN.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"
#include "gis/crs/frame.h"

#include <string>

namespace haylane {

// `crs_operations`: how coordinates were brought into the ranch frame; listed as assumptions.
[[nodiscard]] std::string plan_json(const Plan& plan, const Ranch& ranch, const Frame& frame,
                                    const std::vector<std::string>& crs_operations);

}  // namespace haylane
