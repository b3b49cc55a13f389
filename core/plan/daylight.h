#pragma once
// Hours between sunrise and sunset from latitude and date, for the caution that a day's work does
// not fit. Cooper (1969) declination; horizon at 0.833 degrees below. Good to about 10 minutes.

#include "core/base/day.h"

namespace haylane {

// Seconds of daylight; 0 in polar night, 86 400 in polar day.
[[nodiscard]] double daylight_s(double latitude_rad, sys_days day);

}  // namespace haylane
