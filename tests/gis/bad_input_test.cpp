// Runs every broken and hostile file of the shared set through the readers: none may crash or hang,
// and each outcome must be the kind that EXPECTED.csv lists: an error, or rows with a named
// problem.
#include "gis/raster/read_terrain.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/csv_table.h"
#include "gis/vector/read_layers.h"

#include <chrono>
#include <set>

#include <gtest/gtest.h>

namespace haylane {
namespace {

const std::filesystem::path kBad = std::filesystem::path(HAYLANE_SHARED_DATA) / "bad-input";

struct Outcome {
    bool error = false;
    std::size_t problems = 0;
    std::string text;
};

void add_text(const Problems& problems, Outcome& out) {
    out.problems += problems.size();
    for (const Problem& problem : problems) out.text += problem.text + problem.where;
}

Outcome read_vector(const std::filesystem::path& file) {
    Outcome out;
    const auto layers = read_layers(file);
    if (!layers) return {true, 0, layers.error().what + layers.error().where};
    for (const SourceLayer& layer : *layers) {
        add_text(layer.problems, out);
        for (const SourceRow& row : layer.rows) {
            for (const std::string& cell : row.cells) out.text += cell;
        }
    }
    return out;
}

Outcome read_any(const std::filesystem::path& file) {
    const std::string ending = file.extension().string();
    if (ending == ".csv") {
        const auto layer = read_csv_layer(file);
        if (!layer) return {true, 0, layer.error().what + layer.error().where};
        Outcome out;
        add_text(layer->problems, out);
        return out;
    }
    if (ending == ".tif" || ending == ".asc" || ending == ".vrt") {
        const auto frame = Frame::centred({-100.55, 42.87});
        Box box;
        box.add({-400.0, -400.0});
        box.add({400.0, 400.0});
        const auto terrain = read_terrain(file, *frame, box);
        if (!terrain) return {true, 0, terrain.error().what + terrain.error().where};
        Outcome out;
        add_text(terrain->problems, out);
        return out;
    }
    return read_vector(file);
}

// Files whose outcome is another stage's to judge (polygon validity, sizes, CSV meaning, times),
// or that this reader treats otherwise for a stated reason.
const std::set<std::string> kJudgedElsewhere = {
    "csv-no-header.csv",  // any first line is a heading; required columns are then missing
    "csv-swapped-columns.csv", "csv-degrees-minutes.csv",  // rows named, file kept
    "csv-header-only.csv",                                 // no rows: said when a role is read
    "json-case-type.geojson",                              // 'polygon' is taken as Polygon
    "csv-long-line.csv",       "soil-odd-values.csv",     "soil-units-mixed.csv"};

bool read_here(const std::string& kind, const std::string& file) {
    if (file.find(".gz") != std::string::npos || file.find(".kmz") != std::string::npos)
        return false;
    return (kind == "CSV" || kind == "GPKG" || kind == "DEM" || kind == "VRT" || kind == "KML" ||
            kind == "shapefile" || file.starts_with("json-") || kind == "GPX") &&
           !file.ends_with(".shx") && !file.ends_with(".dbf") && !file.ends_with(".prj");
}

TEST(BadInput, NoFileCrashesHangsOrIsTakenSilently) {
    const auto table = read_csv(kBad / "EXPECTED.csv");
    if (!table) GTEST_SKIP() << "no shared data";
    int errors_asked = 0;
    for (const CsvRow& line : table->rows) {
        const std::string& file = line.cells[0];
        const std::string& outcome = line.cells[3];
        if (!read_here(line.cells[1], file)) continue;
        SCOPED_TRACE(file + ": " + line.cells[2]);
        const auto started = std::chrono::steady_clock::now();
        const Outcome got = read_any(kBad / file);
        const auto took = std::chrono::steady_clock::now() - started;
        EXPECT_LT(std::chrono::duration<double>(took).count(), 20.0);
        EXPECT_EQ(got.text.find("CANARY"), std::string::npos);
        if (kJudgedElsewhere.contains(file)) continue;
        if (outcome == "error") {
            EXPECT_TRUE(got.error || got.problems > 0);
            ++errors_asked;
        }
    }
    EXPECT_GE(errors_asked, 40);
}

TEST(BadInput, GoodFilesAmongThemAreRead) {
    if (!std::filesystem::exists(kBad)) GTEST_SKIP() << "no shared data";
    const auto layers = read_layers(kBad / "gpkg-good.gpkg");
    ASSERT_TRUE(layers) << layers.error().what;
    ASSERT_EQ(layers->size(), 1U);
    EXPECT_EQ(layers->front().rows.size(), 2U);
    const auto csv = read_csv_layer(kBad / "csv-semicolon-decimal-comma.csv");
    ASSERT_TRUE(csv);
    ASSERT_EQ(csv->rows.size(), 2U);
    ASSERT_EQ(csv->rows[0].shape.points.size(), 1U);
    EXPECT_NEAR(csv->rows[0].shape.points[0].lat_deg, 42.87, 1e-3);
    const auto utf16 = read_csv_layer(kBad / "csv-utf16-bom.csv");
    ASSERT_TRUE(utf16);
    EXPECT_EQ(utf16->rows.size(), 1U);
}

TEST(BadInput, VrtIsRefusedByContent) {
    if (!std::filesystem::exists(kBad)) GTEST_SKIP() << "no shared data";
    for (const char* file :
         {"vrt-other-folder.vrt", "vrt-inside-asc-name.asc", "vrt-to-itself.vrt"}) {
        EXPECT_TRUE(read_any(kBad / file).error) << file;
    }
    EXPECT_TRUE(read_vector(kBad / "ogr-vrt-other-file.vrt").error);
}

}  // namespace
}  // namespace haylane
