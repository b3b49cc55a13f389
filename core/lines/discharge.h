#pragma once
// Which way a line is driven so that the hay is not thrown into the wind.

#include "core/lines/candidate_lines.h"

namespace haylane {

// Whether a machine that throws to one side throws up-wind on a line driven as it stands, by its
// ends; within 10 degrees of along the wind, and behind the machine, it never does.
[[nodiscard]] bool throws_into_wind(const Polyline& path, Discharge discharge,
                                    double wind_from_rad);
// Whether it does so on a line of this request.
[[nodiscard]] bool throws_into_wind(const Polyline& path, const LineRequest& request);

}  // namespace haylane
