// Element order follows the GPX 1.1 schema: metadata (name, desc, bounds), then wpt (name,
// desc), then trk (name, desc, trkseg).
#include "gis/exchange/lines_gpx.h"

#include "gis/exchange/xml_text.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

namespace {

struct Bounds {
    double min_lon = 180.0;
    double min_lat = 90.0;
    double max_lon = -180.0;
    double max_lat = -90.0;
    bool any = false;
    void add(LonLat p) {
        min_lon = std::min(min_lon, p.lon_deg);
        min_lat = std::min(min_lat, p.lat_deg);
        max_lon = std::max(max_lon, p.lon_deg);
        max_lat = std::max(max_lat, p.lat_deg);
        any = true;
    }
};

std::string track(const PlannedFeeding& f, const PlannedLine& line, const Ranch& ranch,
                  const Frame& frame, Bounds& bounds) {
    std::string text =
        fmt::format("  <trk>\n    <name>{} {} {}</name>\n    <desc>{}</desc>\n    <trkseg>\n",
                    format_day(f.date), xml_text(ranch[f.herd].name), line.order,
                    xml_text(fmt::format("{}, {}, {} bales, lay {}", ranch[f.pasture].name,
                                         ranch[f.rig].name, line.bales, f.toward)));
    for (const Point p : line.path) {
        const LonLat at = frame.to_lonlat(p);
        bounds.add(at);
        text +=
            fmt::format("      <trkpt lat=\"{:.9f}\" lon=\"{:.9f}\"/>\n", at.lat_deg, at.lon_deg);
    }
    return text + "    </trkseg>\n  </trk>\n";
}

// One a place of a row of rings, numbered within the feeding.
std::string waypoints(const PlannedFeeding& f, const Ranch& ranch, const Frame& frame,
                      Bounds& bounds) {
    std::string text;
    int number = 0;
    for (const PlannedLine& row : f.lines) {
        for (const Point place : row.places) {
            const LonLat at = frame.to_lonlat(place);
            bounds.add(at);
            text += fmt::format(
                "  <wpt lat=\"{:.9f}\" lon=\"{:.9f}\">\n    <name>{} {} ring {}</name>\n"
                "    <desc>{}</desc>\n  </wpt>\n",
                at.lat_deg, at.lon_deg, format_day(f.date), xml_text(ranch[f.herd].name), ++number,
                xml_text(fmt::format("{}, {}, set 1 bale in a ring", ranch[f.pasture].name,
                                     ranch[f.rig].name)));
        }
    }
    return text;
}

}  // namespace

std::string lines_gpx(const Plan& plan, const Ranch& ranch, const Frame& frame) {
    Bounds bounds;
    std::string rings;
    std::string tracks;
    for (const PlannedFeeding& f : plan.feedings) {
        rings += waypoints(f, ranch, frame, bounds);
        for (const PlannedLine& line : f.lines)
            if (!f.in_rings) tracks += track(f, line, ranch, frame, bounds);
    }
    std::string box;
    if (bounds.any)
        box = fmt::format(
            "    <bounds minlat=\"{:.9f}\" minlon=\"{:.9f}\" maxlat=\"{:.9f}\" "
            "maxlon=\"{:.9f}\"/>\n",
            bounds.min_lat, bounds.min_lon, bounds.max_lat, bounds.max_lon);
    return fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<gpx version=\"1.1\" creator=\"Haylane\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n"
        "  <metadata>\n    <name>{}</name>\n    <desc>Feed lines from {} for {} days</desc>\n{}"
        "  </metadata>\n{}{}</gpx>\n",
        xml_text(plan.ranch), format_day(plan.from), plan.days, box, rings, tracks);
}

}  // namespace haylane
