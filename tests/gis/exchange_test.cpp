// Checks the files that leave the program against their standards: RFC 7946, the GPX 1.1 schema's
// order of elements, and the keys of "haylane-plan/1" (docs/formats.md).
#include "core/base/units.h"
#include "gis/exchange/lines_geojson.h"
#include "gis/exchange/lines_gpx.h"
#include "gis/exchange/plan_json.h"
#include "gis/exchange/planned_days.h"
#include "gis/exchange/write_text_file.h"
#include "gis/vector/gpx_layer.h"
#include "gis/vector/read_layers.h"
#include "tests/gis/scratch.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace haylane {
namespace {

using Json = nlohmann::ordered_json;

Ranch small_ranch() {
    Ranch ranch;
    ranch.pastures.resize(1);
    ranch.pastures[0].name = "Home & Away";
    ranch.yards.resize(1);
    ranch.yards[0].name = "Stack";
    ranch.lots.resize(1);
    ranch.lots[0].name = "Grass";
    ranch.lots[0].yard = YardId::at(0);
    ranch.herds.resize(1);
    ranch.herds[0].name = "Cows <old>";
    ranch.rigs.resize(1);
    ranch.rigs[0].name = "Rig";
    return ranch;
}

Plan small_plan() {
    Plan plan;
    plan.ranch = "Test";
    plan.from = *parse_day("2027-01-11");
    PlannedFeeding feeding;
    feeding.date = plan.from;
    feeding.herd = HerdId::at(0);
    feeding.pasture = PastureId::at(0);
    feeding.rig = RigId::at(0);
    feeding.bales = {{LotId::at(0), YardId::at(0), 3}};
    feeding.cp_ratio = 0.0945;
    feeding.lay_kg_per_m = std::numeric_limits<double>::quiet_NaN();
    feeding.start.bearing_rad = units::kPi / 4.0;
    PlannedLine straight;
    straight.id = "a";
    straight.path = {{0.0, 0.0}, {0.0, 300.0}};
    straight.length_m = 300.0;
    straight.order = 1;
    PlannedLine curved = straight;
    curved.id = "b";
    curved.shape = LineShape::curved;
    curved.path = {{0.0, 0.0}, {50.0, 10.0}, {90.0, 60.0}};
    curved.order = 2;
    feeding.lines = {straight, curved};
    PlannedLoad load;
    load.line_ids = {"a", "b"};
    load.bale_count = 3;
    load.yard = YardId::at(0);
    load.legs.resize(1);
    load.legs[0].path = straight.path;
    feeding.loads = {load};
    plan.feedings = {feeding};
    plan.evenness = {{PastureId::at(0), "p2o5", std::nullopt, EvennessFigures{0.5, 0.6, 0.7}}};
    plan.targets = {{PastureId::at(0), "k2o", 0.005, 0.001, 0.002}};
    return plan;
}

Frame here() { return *Frame::centred({-103.4, 46.31}); }

TEST(PlanJson, HasTheKeysOfItsSchemaInOrder) {
    const Json json = Json::parse(plan_json(small_plan(), small_ranch(), here(), {"an operation"}));
    std::vector<std::string> keys;
    for (const auto& [key, value] : json.items()) keys.push_back(key);
    const std::vector<std::string> wanted = {
        "schema",      "ranch",    "from",         "days",       "seed",     "units",
        "feedings",    "totals",   "evenness",     "optimality", "hay_left", "hay_lasts",
        "assumptions", "problems", "switched_off", "targets"};
    EXPECT_EQ(keys, wanted);
    EXPECT_EQ(json["schema"], "haylane-plan/1");
    keys.clear();
    for (const auto& [key, value] : json["feedings"][0].items()) keys.push_back(key);
    const std::vector<std::string> feeding_keys = {
        "date",          "herd",          "pasture",         "rig",     "bales",  "dm_eaten_kg",
        "dm_needed_kg",  "dm_offered_kg", "cp_pct",          "tdn_pct", "loads",  "lines",
        "line_length_m", "lay_kg_per_m",  "line_m_per_head", "start",   "toward", "deposit",
        "deposit_other", "above_nearest", "cautions",        "why"};
    EXPECT_EQ(keys, feeding_keys);
}

// The small plan's lines as rows of rings: two bales, then one.
Plan ring_plan() {
    Plan plan = small_plan();
    PlannedFeeding& feeding = plan.feedings[0];
    feeding.in_rings = true;
    feeding.lines[0].places = {{0.0, 75.0}, {0.0, 225.0}};
    feeding.lines[1].places = {{50.0, 10.0}};
    feeding.loads[0].line_ids.clear();
    return plan;
}

TEST(PlanJson, RingsHavePlacesAndNoLine) {
    const std::string text = plan_json(ring_plan(), small_ranch(), here(), {});
    const Json feeding = Json::parse(text)["feedings"][0];
    EXPECT_TRUE(feeding["lines"].is_array());
    EXPECT_TRUE(feeding["lines"].empty());
    EXPECT_TRUE(feeding["loads"][0]["line_ids"].empty());
    ASSERT_EQ(feeding["places"].size(), 3U);
    const LonLat second{feeding["places"][1]["at"][0], feeding["places"][1]["at"][1]};
    EXPECT_LT(distance_m(here().to_frame(second), {0.0, 225.0}), 1e-3);
    EXPECT_EQ(feeding["places"][1]["bales"], 1);
    const auto days = planned_days(text);
    ASSERT_TRUE(days);
    ASSERT_EQ(days->front().places.size(), 3U);
    EXPECT_NEAR(days->front().places[1].lat_deg, second.lat_deg, 1e-12);
    EXPECT_TRUE(days->front().line_ids.empty());
}

TEST(LinesGpx, RingsAreWaypointsBeforeTracks) {
    const Scratch scratch;
    Plan plan = ring_plan();
    plan.feedings.push_back(small_plan().feedings[0]);
    EXPECT_EQ(Json::parse(lines_geojson(plan, small_ranch(), here()))["features"].size(), 2U);
    const std::string text = lines_gpx(plan, small_ranch(), here());
    EXPECT_LT(text.find("<bounds"), text.find("<wpt "));
    EXPECT_LT(text.rfind("<wpt "), text.find("<trk>"));
    EXPECT_NE(text.find("ring 3</name>"), std::string::npos);
    const auto rings = read_gpx_layer(scratch.put("lines.gpx", text), {.waypoints = true});
    ASSERT_TRUE(rings) << rings.error().what;
    ASSERT_EQ(rings->rows.size(), 3U);
    EXPECT_LT(distance_m(here().to_frame(rings->rows[1].shape.points.at(0)), {0.0, 225.0}), 1e-3);
}

TEST(PlanJson, ConvertsWhereAKeySaysSoAndHoldsNoNaN) {
    const std::string text = plan_json(small_plan(), small_ranch(), here(), {});
    const Json feeding = Json::parse(text)["feedings"][0];
    EXPECT_DOUBLE_EQ(feeding["cp_pct"].get<double>(), 9.45);
    EXPECT_DOUBLE_EQ(feeding["start"]["bearing"].get<double>(), 45.0);
    EXPECT_TRUE(feeding["lay_kg_per_m"].is_null());
    EXPECT_TRUE(feeding["loads"][0]["cost"].is_null());
    EXPECT_TRUE(feeding["loads"][0]["bales"].is_number_integer());
    EXPECT_TRUE(Json::parse(text)["evenness"][0]["before"].is_null());
    const Json whole = Json::parse(text);
    const Json& target = whole["targets"][0];
    EXPECT_EQ(target["pasture"], whole["evenness"][0]["pasture"]);
    EXPECT_EQ(target["measure"], "k2o");
    EXPECT_EQ(target["wanted_kg_per_m2"], 0.005);
    EXPECT_EQ(target["before_kg_per_m2"], 0.001);
    EXPECT_EQ(target["after_kg_per_m2"], 0.002);
    EXPECT_EQ(feeding["date"], "2027-01-11");
    EXPECT_EQ(text, plan_json(small_plan(), small_ranch(), here(), {}));
}

TEST(LinesGeojson, FollowsRfc7946) {
    const Frame frame = here();
    const std::string text = lines_geojson(small_plan(), small_ranch(), frame);
    const Json json = Json::parse(text);
    EXPECT_EQ(json["type"], "FeatureCollection");
    EXPECT_FALSE(json.contains("crs"));
    ASSERT_EQ(json["features"].size(), 2U);
    EXPECT_NE(text.find("[-103.400000000,46.310000000]"), std::string::npos);
    const Json& curve = json["features"][1];
    EXPECT_EQ(curve["properties"]["shape"], "curved");
    const Json& places = curve["geometry"]["coordinates"];
    ASSERT_GT(places.size(), 50U);
    for (std::size_t i = 1; i < places.size(); ++i) {
        const Point a =
            frame.to_frame({places[i - 1][0].get<double>(), places[i - 1][1].get<double>()});
        const Point b = frame.to_frame({places[i][0].get<double>(), places[i][1].get<double>()});
        EXPECT_LE(distance_m(a, b), 2.0 + 1e-3);
    }
    EXPECT_EQ(json["features"][0]["geometry"]["coordinates"].size(), 2U);
}

TEST(LinesGpx, HasItsElementsInOrderAndIsReadBack) {
    const Scratch scratch;
    const std::string text = lines_gpx(small_plan(), small_ranch(), here());
    EXPECT_LT(text.find("<metadata>"), text.find("<bounds"));
    EXPECT_LT(text.find("<bounds"), text.find("<trk>"));
    EXPECT_LT(text.find("<trk>"), text.find("<trkseg>"));
    EXPECT_EQ(text.find("<old>"), std::string::npos);
    const auto layers = read_layers(scratch.put("lines.gpx", text));
    ASSERT_TRUE(layers) << layers.error().what;
    ASSERT_EQ(layers->front().rows.size(), 2U);
    EXPECT_EQ(layers->front().rows[0].shape.lines.at(0).size(), 2U);
    EXPECT_NEAR(layers->front().rows[0].shape.lines[0][0].lat_deg, 46.31, 1e-9);
}

TEST(WriteTextFile, ReplacesWholeFilesOrSaysWhyNot) {
    const Scratch scratch;
    const auto file = scratch.put("a.txt", "old");
    ASSERT_TRUE(write_text_file(file, "new text"));
    EXPECT_EQ(std::filesystem::file_size(file), 8U);
    const auto nowhere = write_text_file(scratch / "no/such/a.txt", "x");
    ASSERT_FALSE(nowhere);
    EXPECT_FALSE(nowhere.error().remedy.empty());
    std::size_t files = 0;
    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(scratch.path()))
        ++files;
    EXPECT_EQ(files, 1U);
}

}  // namespace
}  // namespace haylane
