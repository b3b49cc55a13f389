#pragma once
// Feed lines as KML 2.2 (OGC 07-147r2): a folder a day, a line or point each, in driving order.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"
#include "gis/crs/frame.h"

#include <string>

namespace haylane {

[[nodiscard]] std::string lines_kml(const Plan& plan, const Ranch& ranch, const Frame& frame);

}  // namespace haylane
