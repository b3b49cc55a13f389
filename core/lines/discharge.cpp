#include "core/lines/discharge.h"

#include "core/base/units.h"
#include "core/lines/headings.h"

#include <cmath>

namespace haylane {

namespace {

constexpr double kAlongWind_rad = 10.0 * units::kPi / 180.0;

}  // namespace

bool throws_into_wind(const Polyline& path, Discharge discharge, double wind_from_rad) {
    if (discharge == Discharge::behind || path.size() < 2 || path.front() == path.back())
        return false;
    const Point right = right_of(azimuth_rad(path.front(), path.back()));
    const Point thrown = right * (discharge == Discharge::right ? 1.0 : -1.0);
    return dot(thrown, along_azimuth(wind_from_rad)) > std::sin(kAlongWind_rad);
}

bool throws_into_wind(const Polyline& path, const LineRequest& request) {
    return request.wind_from_rad &&
           throws_into_wind(path, request.discharge, *request.wind_from_rad);
}

}  // namespace haylane
