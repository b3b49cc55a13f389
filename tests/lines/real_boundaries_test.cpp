// Every family of lines on real polygons: fields, parcels, homesteads and irrigated land of seven
// countries (sources: the README of the shared test data). Crop strips and homesteads often have no
// room for a bale's line behind a fence strip of 6 m.
#include "gis/vector/read_layers.h"
#include "tests/lines/family_checks.h"

#include <cmath>
#include <filesystem>
#include <iterator>

namespace haylane {
namespace {

constexpr double kEarth_m = 6371000.0;
constexpr double kLargest_m2 = 4.0e6;  // a thousand acres
constexpr std::size_t kMostVertices = 400;

// In metres about the first point; near enough for the shape.
MultiPolygon in_metres(const LonLatShape& shape) {
    MultiPolygon all;
    if (shape.polygons.empty()) return all;
    const LonLat origin = shape.polygons.front().rings.front().front();
    const double east_m =
        units::rad_from_deg(1.0) * kEarth_m * std::cos(units::rad_from_deg(origin.lat_deg));
    const double north_m = units::rad_from_deg(1.0) * kEarth_m;
    for (const LonLatPolygon& part : shape.polygons) {
        Polygon polygon;
        for (std::size_t k = 0; k < part.rings.size(); ++k) {
            Ring ring;
            for (const LonLat& p : part.rings[k])
                ring.push_back({(p.lon_deg - origin.lon_deg) * east_m,
                                (p.lat_deg - origin.lat_deg) * north_m});
            if (k == 0)
                polygon.outer = std::move(ring);
            else
                polygon.holes.push_back(std::move(ring));
        }
        all.push_back(std::move(polygon));
    }
    const auto whole = make_valid(all);
    EXPECT_TRUE(whole.has_value());
    return whole ? whole->shape : MultiPolygon{};
}

std::size_t vertex_count(const MultiPolygon& shape) {
    std::size_t count = 0;
    for (const Ring& ring : test::rings_of(shape)) count += ring.size();
    return count;
}

LineRequest request_for(int number, const MultiPolygon& pasture) {
    LineRequest request;
    request.loads = {{2, 90.0}, {1, 45.0}};
    request.line_radius_m = number % 3 == 0 ? 0.0 : 9.0 * (number % 3);
    request.heading_step_rad = units::rad_from_deg(15.0);
    request.max_candidates = 12;
    request.gates = {pasture.front().outer.front()};
    return request;
}

class RealBoundaries : public testing::TestWithParam<const char*> {};

TEST_P(RealBoundaries, HaveLinesThatKeepEveryRuleOrNoRoom) {
    const std::filesystem::path file =
        std::filesystem::path(HAYLANE_SHARED_DATA) / "boundaries" / GetParam();
    if (!std::filesystem::exists(file)) GTEST_SKIP() << "no shared data";
    const auto layers = read_layers(file);
    ASSERT_TRUE(layers) << layers.error().what;
    int number = 0;
    int judged = 0;
    int some = 0;
    int no_room = 0;
    for (const SourceLayer& layer : *layers) {
        for (const SourceRow& row : layer.rows) {
            test::FamilyCase one;
            one.map.pasture = in_metres(row.shape);
            ++number;
            if (one.map.pasture.empty() || area_m2(one.map.pasture) > kLargest_m2) continue;
            one.request = request_for(number, one.map.pasture);
            one.look_closely = vertex_count(one.map.pasture) <= kMostVertices;
            const Terrain slope = test::terrain_over(box_of(one.map.pasture), [](Point p) {
                return 0.03 * p.x + 2.0 * std::sin(p.y / 90.0);
            });
            if (number % 4 == 1) one.map.terrain = &slope;
            const test::FamilyFindings found = test::findings_on(one);
            for (const std::string& fault : found.faults)
                ADD_FAILURE() << fault << ", " << row.where;
            ++judged;
            some += found.all_ways() > 0 ? 1 : 0;
            no_room += found.ground_is_empty || !found.one_bale_fits ? 1 : 0;
        }
    }
    RecordProperty("judged", judged);
    RecordProperty("with_ways", some);
    RecordProperty("without_room_for_a_bale", no_room);
    ASSERT_GT(judged, 0);
    // The rest had room for a bale, not for three away from the gate.
    EXPECT_GE(some + no_room, judged * 3 / 4);
}

INSTANTIATE_TEST_SUITE_P(Files, RealBoundaries,
                         testing::Values("blocks-germany-zone-prefixed-easting.gpkg",
                                         "field-spec-example.geojson",
                                         "fields-denmark-shp-epsg25832/fields.shp",
                                         "fields-netherlands-epsg28992.gpkg",
                                         "fields-new-mexico-dissolved-multipolygon.geojson",
                                         "fields-new-mexico-wgs84.geojson",
                                         "homesteads-austria-epsg31287-crs-member.geojson",
                                         "irrigated-new-zealand-shp-epsg2193/"
                                         "irrigated-land-area-raw-2020-update.shp",
                                         "parcels-finland-epsg3067.gpkg"));

}  // namespace
}  // namespace haylane
