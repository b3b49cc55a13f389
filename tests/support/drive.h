#pragma once
// A made-up drive, written as a GPX track of a point a second.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <string>

namespace haylane::testing {

// Degrees by the length of a degree at the small sample ranches. Seconds are of 2027-01-11 UTC.
class Drive {
  public:
    explicit Drive(int start_s) : time_s_(start_s) {}
    void stand(int seconds) {
        for (int i = 0; i < seconds; ++i) fix();
    }
    void to(double lon, double lat, double m_per_s) {
        const double east = (lon - lon_) * 111320.0 * std::cos(lat * 0.0174532925);
        const double north = (lat - lat_) * 111200.0;
        const int steps = std::max(1, static_cast<int>(std::hypot(east, north) / m_per_s));
        const double lon0 = lon_;
        const double lat0 = lat_;
        for (int i = 1; i <= steps; ++i) {
            lon_ = lon0 + (lon - lon0) * i / steps;
            lat_ = lat0 + (lat - lat0) * i / steps;
            fix();
        }
    }
    void start_at(double lon, double lat) {
        lon_ = lon;
        lat_ = lat;
    }
    // Of the point to come.
    [[nodiscard]] int now_s() const { return time_s_; }
    [[nodiscard]] std::string gpx() const {
        return "<gpx version=\"1.1\" creator=\"test\" "
               "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><name>Morning</name><trkseg>\n" +
               points_ + "</trkseg></trk></gpx>\n";
    }

  private:
    void fix() {
        const double wobble = 1.5e-5 * std::sin(12.9898 * time_s_);
        std::array<char, 160> line{};
        std::snprintf(line.data(), line.size(),
                      "<trkpt lat=\"%.7f\" lon=\"%.7f\"><time>2027-01-%02dT%02d:%02d:%02dZ</time>"
                      "</trkpt>\n",
                      lat_ + wobble, lon_ - wobble, 11 + time_s_ / 86400, time_s_ / 3600 % 24,
                      time_s_ / 60 % 60, time_s_ % 60);
        points_ += line.data();
        ++time_s_;
    }
    int time_s_;
    double lon_ = 0.0;
    double lat_ = 0.0;
    std::string points_;
};

}  // namespace haylane::testing
