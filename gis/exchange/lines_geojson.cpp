// Coordinates are written by hand with nine decimals (0.1 mm): a JSON library prints doubles in as
// many digits as they need, which differs from file to file for no gain.
#include "gis/exchange/lines_geojson.h"

#include "core/base/units.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using Json = nlohmann::ordered_json;
constexpr double kCurveStep_m = 2.0;

std::string coordinates(const Polyline& path, const Frame& frame) {
    std::string text = "[";
    for (const Point p : path) {
        const LonLat at = frame.to_lonlat(p);
        text +=
            fmt::format("{}[{:.9f},{:.9f}]", text.size() > 1 ? "," : "", at.lon_deg, at.lat_deg);
    }
    return text + "]";
}

std::string feature(const Json& properties, const std::string& coordinates_text) {
    return fmt::format(
        R"({{"type":"Feature","properties":{},"geometry":{{"type":"LineString","coordinates":{}}}}})",
        properties.dump(-1, ' ', false, Json::error_handler_t::replace), coordinates_text);
}

std::string collection(const std::vector<std::string>& features) {
    return fmt::format("{{\"type\":\"FeatureCollection\",\"features\":[\n{}\n]}}\n",
                       fmt::join(features, ",\n"));
}

const char* leg_name(LegKind kind) {
    switch (kind) {
        case LegKind::out:
            return "out";
        case LegKind::lay:
            return "lay";
        case LegKind::back:
            return "back";
    }
    return "out";
}

// A LineString needs two positions.
Polyline drawable(Polyline path) {
    if (path.size() == 1) path.push_back(path.front());
    return path;
}

}  // namespace

std::string lines_geojson(const Plan& plan, const Ranch& ranch, const Frame& frame) {
    std::vector<std::string> features;
    for (const PlannedFeeding& f : plan.feedings) {
        if (f.in_rings) continue;  // its rows are no lines; places stand in plan.json
        for (const PlannedLine& line : f.lines) {
            const bool curved = line.shape == LineShape::curved;
            const Json properties = {{"id", line.id},
                                     {"date", format_day(f.date)},
                                     {"herd", ranch[f.herd].name},
                                     {"pasture", ranch[f.pasture].name},
                                     {"rig", ranch[f.rig].name},
                                     {"shape", curved ? "curved" : "straight"},
                                     {"heading_deg", units::deg_from_rad(line.heading_rad)},
                                     {"length_m", line.length_m},
                                     {"bales", line.bales},
                                     {"order", line.order}};
            const Polyline path = curved ? densified(line.path, kCurveStep_m) : line.path;
            features.push_back(feature(properties, coordinates(drawable(path), frame)));
        }
    }
    return collection(features);
}

std::string routes_geojson(const Plan& plan, const Ranch& ranch, const Frame& frame) {
    std::vector<std::string> features;
    for (const PlannedFeeding& f : plan.feedings) {
        for (std::size_t l = 0; l < f.loads.size(); ++l) {
            for (const PlannedLeg& leg : f.loads[l].legs) {
                const Json properties = {{"date", format_day(f.date)},
                                         {"herd", ranch[f.herd].name},
                                         {"load", l + 1},
                                         {"leg", leg_name(leg.kind)},
                                         {"length_m", leg.length_m},
                                         {"time_s", leg.time_s},
                                         {"fuel_l", leg.fuel_l}};
                features.push_back(feature(properties, coordinates(drawable(leg.path), frame)));
            }
        }
    }
    return collection(features);
}

}  // namespace haylane
