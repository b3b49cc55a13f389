#pragma once
// Feed lines and driven ways as GeoJSON (RFC 7946): WGS 84, longitude first, 9 decimals, no crs
// member; vertices at most 2 m apart on curved lines.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"
#include "gis/crs/frame.h"

#include <string>

namespace haylane {

[[nodiscard]] std::string lines_geojson(const Plan& plan, const Ranch& ranch, const Frame& frame);
[[nodiscard]] std::string routes_geojson(const Plan& plan, const Ranch& ranch, const Frame& frame);

}  // namespace haylane
