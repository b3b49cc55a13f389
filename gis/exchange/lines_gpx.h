#pragma once
// Feed lines as GPX 1.1: one track a line, in driving order, for a phone or a cab display.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"
#include "gis/crs/frame.h"

#include <string>

namespace haylane {

[[nodiscard]] std::string lines_gpx(const Plan& plan, const Ranch& ranch, const Frame& frame);

}  // namespace haylane
