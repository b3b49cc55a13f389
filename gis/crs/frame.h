#pragma once
// The ranch frame: where metres meet degrees. Transverse Mercator on WGS 84, scale 1, centred on a
// longitude and latitude of whole hundredths of a degree, made once and kept with the book.
// Within 30 km of the centre lengths agree with the geodesic to 1.2e-5, areas to 2.4e-5.
// Copies share one PROJ object; calls take its lock, so any thread may call.

#include "core/base/result.h"
#include "core/geometry/point.h"

#include <memory>
#include <span>
#include <string>

namespace haylane {

// Degrees east and north, WGS 84. Never converts to Point without a Frame.
struct LonLat {
    double lon_deg = 0.0;
    double lat_deg = 0.0;
    friend constexpr bool operator==(const LonLat&, const LonLat&) = default;
};

// True for finite degrees within [-180, 180] and [-90, 90].
[[nodiscard]] bool on_earth(LonLat place);
// False at 0, 0, which receivers write when they see no satellites.
[[nodiscard]] constexpr bool has_fix(LonLat place) {
    return place.lon_deg != 0.0 || place.lat_deg != 0.0;
}

class Frame {
  public:
    // Centre as given; error "frame_impossible" when not on earth or within 1 degree of a pole.
    [[nodiscard]] static Result<Frame> centred(LonLat centre);
    // Reads what wkt() wrote; error "frame_unreadable" for anything else.
    [[nodiscard]] static Result<Frame> from_wkt(const std::string& wkt);

    // NaN where the projection has no value (a quarter of the globe away).
    [[nodiscard]] Point to_frame(LonLat place) const;
    [[nodiscard]] LonLat to_lonlat(Point place) const;
    [[nodiscard]] const std::string& wkt() const;  // WKT2:2019
    [[nodiscard]] LonLat centre() const;

  private:
    struct Impl;
    explicit Frame(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}
    std::shared_ptr<const Impl> impl_;
};

// Middle of the lon/lat box of `places` rounded to 0.01 degree; places must not be empty.
[[nodiscard]] LonLat frame_centre(std::span<const LonLat> places);

}  // namespace haylane
