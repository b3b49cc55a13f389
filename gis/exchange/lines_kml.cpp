// Coordinates are longitude, latitude, in WGS 84, lines laid on the ground.
#include "gis/exchange/lines_kml.h"

#include "gis/exchange/xml_text.h"

#include <fmt/format.h>

namespace haylane {

namespace {

std::string place(const Frame& frame, Point p) {
    const LonLat at = frame.to_lonlat(p);
    return fmt::format("{:.9f},{:.9f}", at.lon_deg, at.lat_deg);
}

std::string placemark(const std::string& name, const std::string& description,
                      const std::string& geometry) {
    return fmt::format(
        "      <Placemark>\n        <name>{}</name>\n        <description>{}</description>\n"
        "        {}\n      </Placemark>\n",
        xml_text(name), xml_text(description), geometry);
}

std::string line(const PlannedFeeding& f, const PlannedLine& line, const Ranch& ranch,
                 const Frame& frame) {
    std::string path;
    for (const Point p : line.path) path += (path.empty() ? "" : " ") + place(frame, p);
    return placemark(fmt::format("{} {}", ranch[f.herd].name, line.order),
                     fmt::format("{}, {}, {} bales, lay {}", ranch[f.pasture].name,
                                 ranch[f.rig].name, line.bales, f.toward),
                     "<LineString><tessellate>1</tessellate><coordinates>" + path +
                         "</coordinates></LineString>");
}

// One a place of a row of rings, numbered within the feeding.
std::string rings(const PlannedFeeding& f, const Ranch& ranch, const Frame& frame) {
    std::string text;
    int number = 0;
    for (const PlannedLine& row : f.lines) {
        for (const Point at : row.places)
            text += placemark(fmt::format("{} ring {}", ranch[f.herd].name, ++number),
                              fmt::format("{}, {}, set 1 bale in a ring", ranch[f.pasture].name,
                                          ranch[f.rig].name),
                              "<Point><coordinates>" + place(frame, at) + "</coordinates></Point>");
    }
    return text;
}

}  // namespace

std::string lines_kml(const Plan& plan, const Ranch& ranch, const Frame& frame) {
    std::string folders;
    std::string open;  // the day whose folder is being written
    for (const PlannedFeeding& f : plan.feedings) {
        const std::string day = format_day(f.date);
        if (day != open) {
            if (!open.empty()) folders += "    </Folder>\n";
            folders += fmt::format("    <Folder>\n      <name>{}</name>\n", day);
            open = day;
        }
        if (f.in_rings) folders += rings(f, ranch, frame);
        for (const PlannedLine& one : f.lines)
            if (!f.in_rings) folders += line(f, one, ranch, frame);
    }
    if (!open.empty()) folders += "    </Folder>\n";
    return fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n  <Document>\n    <name>{}</name>\n"
        "    <description>Feed lines from {} for {} days</description>\n{}  </Document>\n"
        "</kml>\n",
        xml_text(plan.ranch), format_day(plan.from), plan.days, folders);
}

}  // namespace haylane
