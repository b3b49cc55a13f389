// Checks that nothing is lost from real boundary files, against counts made with GEOS and pyogrio
// by others (oracles/boundary-counts.csv), and small files written by hand.
#include "gis/vector/csv_table.h"
#include "gis/vector/read_layers.h"
#include "tests/gis/scratch.h"

#include <cmath>
#include <map>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr const char* kBox =
    R"([[[-100.56,42.86],[-100.55,42.86],[-100.55,42.87],[-100.56,42.86]]])";

std::string collection(const std::string& features) {
    return R"({"type":"FeatureCollection","features":[)" + features + "]}";
}
std::string polygon(const std::string& properties, const std::string& rings) {
    return R"({"type":"Feature","properties":)" + properties +
           R"(,"geometry":{"type":"Polygon","coordinates":)" + rings + "}}";
}

struct Counts {
    std::size_t features = 0;
    std::size_t parts = 0;
    std::size_t holes = 0;
    std::size_t vertices = 0;  // as files count them: the first point of a ring repeated
};

Counts counts_of(const SourceLayer& layer) {
    Counts counts;
    counts.features = layer.rows.size();
    for (const SourceRow& row : layer.rows) {
        counts.parts += row.shape.polygons.size();
        for (const LonLatPolygon& part : row.shape.polygons) {
            counts.holes += part.rings.size() - 1;
            for (const LonLatLine& ring : part.rings) counts.vertices += ring.size() + 1;
        }
    }
    return counts;
}

TEST(ReadLayers, LosesNothingOfRealBoundaryFiles) {
    const std::filesystem::path data = HAYLANE_SHARED_DATA;
    const auto table = read_csv(data / "oracles/boundary-counts.csv");
    if (!table) GTEST_SKIP() << "no shared data";
    int compared = 0;
    for (const CsvRow& line : table->rows) {
        const auto& cells = line.cells;
        if (cells[0].ends_with(".gml")) continue;  // GML is not among the formats read
        SCOPED_TRACE(cells[0]);
        const auto layers = read_layers(data / cells[0]);
        ASSERT_TRUE(layers) << layers.error().what;
        const SourceLayer* found = nullptr;
        for (const SourceLayer& layer : *layers) {
            if (layers->size() == 1 || layer.name == cells[1]) found = &layer;
        }
        ASSERT_NE(found, nullptr);
        const Counts counts = counts_of(*found);
        EXPECT_EQ(counts.features, std::stoul(cells[3]));
        EXPECT_EQ(counts.parts, std::stoul(cells[4]));
        EXPECT_EQ(counts.holes, std::stoul(cells[6]));
        EXPECT_EQ(counts.vertices, std::stoul(cells[9]));
        ++compared;
    }
    EXPECT_EQ(compared, 13);
}

TEST(ReadLayers, ReadsAttributesAsTextWhateverTheirType) {
    const Scratch scratch;
    const auto file = scratch.put(
        "pastures.geojson",
        collection(
            polygon(R"({"name":"A","feed":true,"bales":5,"dose":2.5,"on":"2027-01-10"})", kBox)));
    const auto layers = read_layers(file);
    ASSERT_TRUE(layers);
    const SourceLayer& layer = layers->front();
    std::map<std::string, std::string> cells;
    for (std::size_t i = 0; i < layer.columns.size(); ++i) {
        cells[layer.columns[i]] = layer.rows[0].cells[i];
    }
    EXPECT_EQ(cells["name"], "A");
    EXPECT_EQ(cells["feed"], "1");
    EXPECT_EQ(cells["bales"], "5");
    EXPECT_EQ(cells["dose"], "2.5");
    EXPECT_EQ(cells["on"], "2027-01-10");
}

TEST(ReadLayers, NamesSwappedCoordinates) {
    const Scratch scratch;
    const auto file = scratch.put(
        "pastures.geojson",
        collection(
            polygon("{}", "[[[42.86,-100.56],[42.86,-100.55],[42.87,-100.55],[42.86,-100.56]]]")));
    const auto layers = read_layers(file);
    ASSERT_FALSE(layers);
    EXPECT_EQ(layers.error().code, "coordinates_out_of_range");
    EXPECT_NE(layers.error().remedy.find("exchanged"), std::string::npos);
}

TEST(ReadLayers, NamesFeaturesWithoutAShapeAndKeepsTheRest) {
    const Scratch scratch;
    const auto file = scratch.put(
        "pastures.geojson",
        collection(R"({"type":"Feature","properties":{"name":"none"},"geometry":null},)" +
                   polygon(R"({"name":"A"})", kBox)));
    const auto layers = read_layers(file);
    ASSERT_TRUE(layers);
    ASSERT_EQ(layers->front().rows.size(), 2U);
    EXPECT_TRUE(layers->front().rows[0].shape.empty());
    EXPECT_EQ(layers->front().rows[1].shape.polygons.size(), 1U);
    ASSERT_FALSE(layers->front().problems.empty());
    EXPECT_EQ(layers->front().problems[0].code, "no_geometry");
    EXPECT_NE(layers->front().problems[0].where.find("feature 1"), std::string::npos);
}

TEST(ReadLayers, NeverTakesPartOfANumberForTheWhole) {
    const Scratch scratch;
    const auto gpx =
        scratch.put("yards.gpx", "<gpx version=\"1.1\"><wpt lat=\"42,87\" lon=\"-100.5\"/></gpx>");
    const auto layers = read_layers(gpx);
    ASSERT_FALSE(layers);
    EXPECT_EQ(layers.error().code, "coordinate_unreadable");
    EXPECT_NE(layers.error().where.find("line 1"), std::string::npos);
}

TEST(ReadLayers, TakesNoAddressForAFile) {
    for (const char* name :
         {"/vsicurl/http://example.com/a.geojson", "GPKG:x.gpkg", "PG:dbname=x"}) {
        const auto layers = read_layers(std::filesystem::path(name).replace_extension(".geojson"));
        ASSERT_FALSE(layers) << name;
        EXPECT_EQ(layers.error().code, "file_missing") << name;
    }
}

}  // namespace
}  // namespace haylane
