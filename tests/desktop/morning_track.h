#pragma once
// A recorded morning, one fix in 2 s: loading at the stack, out by the gate, a line laid, and back.

#include "core/geometry/point.h"
#include "gis/crs/frame.h"

#include <chrono>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <date/date.h>
#include <fmt/format.h>

namespace haylane {

struct MorningPlaces {
    Point stack;
    Point gate;
    Point start;  // of the line laid
    Point end;
    double feed_m_per_s = 0.67;
};

// GPX 1.1.
inline std::string morning_track(const Frame& frame, const MorningPlaces& places) {
    std::vector<std::pair<Point, double>> fixes;
    double time_s = 1'800'025'200.0;  // 15 January 2027, 15:00 UTC
    const auto stand = [&](Point at, double seconds) {
        for (double t = 0.0; t < seconds; t += 2.0) fixes.emplace_back(at, time_s += 2.0);
    };
    const auto drive = [&](Point from, Point to, double m_per_s) {
        const double length = distance_m(from, to);
        for (double done = 0.0; done < length; done += 2.0 * m_per_s)
            fixes.emplace_back(lerp(from, to, done / length), time_s += 2.0);
    };
    stand(places.stack, 420.0);
    drive(places.stack, places.gate, 3.0);
    drive(places.gate, places.start, 3.5);
    drive(places.start, places.end, places.feed_m_per_s);
    drive(places.end, places.gate, 4.0);
    drive(places.gate, places.stack, 3.0);
    stand(places.stack, 300.0);
    std::string text =
        "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"test\" "
        "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>";
    for (const auto& [at, when] : fixes) {
        const LonLat place = frame.to_lonlat(at);
        const auto second = std::chrono::sys_seconds(std::chrono::seconds(std::lround(when)));
        text += fmt::format("<trkpt lat=\"{:.8f}\" lon=\"{:.8f}\"><time>{}</time></trkpt>\n",
                            place.lat_deg, place.lon_deg, date::format("%FT%TZ", second));
    }
    return text + "</trkseg></trk></gpx>";
}

}  // namespace haylane
