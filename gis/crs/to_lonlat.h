#pragma once
// From any coordinate system that PROJ knows to WGS 84 longitude and latitude, and back, in the
// axis order x, y (east or longitude first) whatever the system itself says.
// Grids that are not installed are never fetched; NAD83 then counts as WGS 84.

#include "core/base/result.h"
#include "gis/crs/frame.h"

#include <memory>
#include <optional>
#include <string>

namespace haylane {

class ToLonLat {
  public:
    // `crs` is WKT (1 or 2) or "EPSG:26913". Error "crs_unreadable" when PROJ does not know it.
    [[nodiscard]] static Result<ToLonLat> from_crs(const std::string& crs);

    // nullopt where the transformation has no value.
    [[nodiscard]] std::optional<LonLat> lonlat(double x, double y) const;
    [[nodiscard]] std::optional<Point> inverse(LonLat place) const;
    // Longitude and latitude in degrees already, of whatever datum.
    [[nodiscard]] bool geographic() const;
    // Name of the system and of the operation used for the last point; for `assumptions`.
    [[nodiscard]] std::string operation() const;

  private:
    struct Impl;
    explicit ToLonLat(std::shared_ptr<Impl> impl) : impl_(std::move(impl)) {}
    std::shared_ptr<Impl> impl_;
};

}  // namespace haylane
