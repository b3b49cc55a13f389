#include "core/plan/daylight.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>

namespace haylane {

double daylight_s(double latitude_rad, sys_days day) {
    const std::chrono::year_month_day date{day};
    const auto day_of_year = (day - sys_days{date.year() / std::chrono::January / 1}).count() + 1;
    const double declination =
        units::rad_from_deg(23.45) *
        std::sin(2.0 * units::kPi * (284.0 + static_cast<double>(day_of_year)) / 365.0);
    const double cosine =
        (std::sin(units::rad_from_deg(-0.833)) - std::sin(latitude_rad) * std::sin(declination)) /
        (std::cos(latitude_rad) * std::cos(declination));
    return units::kSecondsPerDay / units::kPi * std::acos(std::clamp(cosine, -1.0, 1.0));
}

}  // namespace haylane
