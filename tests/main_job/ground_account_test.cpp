// The account of the sample ranch's ground, from its folder to the files, checked by the files.
#include "app/papers/gui.h"
#include "app/session/ground_ranch.h"
#include "gis/book/make_book.h"
#include "gis/gdal/gdal_session.h"
#include "tests/support/temp_folder.h"

#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

const fs::path kRanch = fs::path(HAYLANE_SOURCE_DIR) / "sample-maps/brindle-coulee";

std::string slurp(const fs::path& path) {
    std::ifstream file(path);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

class GroundAccounts : public ::testing::Test {
  protected:
    static void SetUpTestSuite() {
        temp_ = new testing::TempFolder;
        const auto made = make_book(kRanch, *temp_ / "ranch.gpkg", false);
        ASSERT_TRUE(made) << made.error().what;
        auto open = open_ranch(*temp_ / "ranch.gpkg");
        ASSERT_TRUE(open) << open.error().what;
        open_ = new OpenRanch(std::move(*open));
        open_->checked.ranch.settings.cell_m = 6.0;  // for speed
    }
    static void TearDownTestSuite() {
        delete open_;
        delete temp_;
    }
    static Result<GroundReport> run(const GroundRequest& request, const char* folder) {
        const Gui gui;
        return account_for_ground(*open_, request, *temp_ / folder, false);
    }
    static testing::TempFolder* temp_;
    static OpenRanch* open_;
};
testing::TempFolder* GroundAccounts::temp_ = nullptr;
OpenRanch* GroundAccounts::open_ = nullptr;

// Sum of a raster's band over hectares of its cells.
double mass_in(const fs::path& file) {
    const auto open = open_raster(file);
    EXPECT_TRUE(open) << file;
    if (!open) return 0.0;
    GDALRasterBand& band = *(*open)->GetRasterBand(1);
    std::vector<float> values(static_cast<std::size_t>(band.GetXSize()) *
                              static_cast<std::size_t>(band.GetYSize()));
    EXPECT_EQ(band.RasterIO(GF_Read, 0, 0, band.GetXSize(), band.GetYSize(), values.data(),
                            band.GetXSize(), band.GetYSize(), GDT_Float32, 0, 0, nullptr),
              CE_None);
    double sum = 0.0;
    for (const float value : values) {
        if (value != -9999.0F) sum += static_cast<double>(value);
    }
    double geo[6] = {};
    (*open)->GetGeoTransform(geo);
    return sum * geo[1] * geo[1] / 10000.0;
}

std::set<float> values_in(const fs::path& file) {
    const auto open = open_raster(file);
    EXPECT_TRUE(open) << file;
    if (!open) return {};
    GDALRasterBand& band = *(*open)->GetRasterBand(1);
    std::vector<float> row(static_cast<std::size_t>(band.GetXSize()));
    std::set<float> values;
    for (int j = 0; j < band.GetYSize(); ++j) {
        EXPECT_EQ(band.RasterIO(GF_Read, 0, j, band.GetXSize(), 1, row.data(), band.GetXSize(), 1,
                                GDT_Float32, 0, 0, nullptr),
                  CE_None);
        values.insert(row.begin(), row.end());
    }
    return values;
}

// 889 feedings of the folder; the last winter's are those of feedings.geojson after 1 July 2026.
TEST_F(GroundAccounts, FilesHoldWhatTheFolderSays) {
    GroundRequest request;
    request.uncertainty.draws = 20;
    const auto report = run(request, "last");
    ASSERT_TRUE(report) << report.error().what;
    const json folder = json::parse(slurp(kRanch / "feedings.geojson"));
    double bales = 0.0;
    for (const json& feature : folder["features"]) {
        const json& p = feature["properties"];
        const std::string date = p.value("date", p.value("date_from", std::string()));
        if (date >= "2026-07-01") bales += p["bales"].get<double>();
    }
    const json ground = json::parse(slurp(*temp_ / "last" / "ground.json"));
    EXPECT_EQ(ground["schema"], "haylane-ground/1");
    EXPECT_EQ(ground["span"], "2026-27");
    EXPECT_NEAR(ground["books"]["bales"].get<double>(), bales, 1e-6);
    double p2o5 = 0.0;
    double by_pasture = 0.0;
    for (const json& pasture : ground["pastures"]) {
        by_pasture += pasture["books"]["bales"].get<double>();
        p2o5 += pasture["loads"]["p2o5"]["total"].get<double>();
        if (pasture["bands"].is_null()) continue;
        const json& band = pasture["loads"]["p2o5"]["band"]["mean_per_m2"];
        EXPECT_LT(band["p10"].get<double>(), band["p90"].get<double>());
    }
    EXPECT_NEAR(by_pasture, bales, 1e-6);
    EXPECT_NEAR(p2o5, ground["books"]["on_ground"]["p2o5_kg"].get<double>(), 1e-9 * p2o5);
    EXPECT_NEAR(mass_in(*temp_ / "last" / "ground-p2o5.tif"), p2o5, 1e-6 * p2o5);
    EXPECT_NEAR(mass_in(*temp_ / "last" / "ground-bales.tif"), bales, 1e-6 * bales);
    // Home Flat has a limit: its chance map stands, in [0, 1].
    EXPECT_TRUE(fs::exists(*temp_ / "last" / "chance-over.tif"));
    EXPECT_GE(mass_in(*temp_ / "last" / "change-p2o5.tif"), -1e9);
    EXPECT_EQ(ground["pastures"].size(), 13U);
    EXPECT_EQ(slurp(*temp_ / "last" / "ground-report.pdf").substr(0, 4), "%PDF");
}

TEST_F(GroundAccounts, DoNotDependOnThreads) {
    GroundRequest request{.season = "2025-26", .pastures = {"Home Flat", "Creek Meadow"}};
    request.uncertainty.draws = 10;
    request.measures = {SeasonMeasure::n};
    request.threads = 1;
    ASSERT_TRUE(run(request, "one"));
    request.threads = 2;
    ASSERT_TRUE(run(request, "two"));
    for (const char* name : {"ground.json", "pastures.csv", "ground-n.tif"})
        EXPECT_TRUE(slurp(*temp_ / "one" / name) == slurp(*temp_ / "two" / name)) << name;
    const json ground = json::parse(slurp(*temp_ / "one" / "ground.json"));
    EXPECT_EQ(ground["pastures"].size(), 2U);
    EXPECT_EQ(ground["measure_shown"], "n");
}

// A pasture of which over a quarter of the bales is recalled shows classes, not numbers.
TEST_F(GroundAccounts, ShowClassesWhereRecordsAreRecalled) {
    GroundRequest request{.season = "2024-25"};
    request.uncertainty.draws = 0;
    request.measures = {SeasonMeasure::p2o5};
    ASSERT_TRUE(run(request, "old"));
    const json ground = json::parse(slurp(*temp_ / "old" / "ground.json"));
    int classes = 0;
    for (const json& pasture : ground["pastures"]) {
        const json& books = pasture["books"];
        if (books["feedings"] == 0) continue;
        const json& from = books["provenance"];
        const double unsure = from["recalled"].get<double>() + from["assumed"].get<double>();
        EXPECT_EQ(from["shows"], unsure > 0.25 ? "classes" : "numbers");
        EXPECT_EQ(books["bales"].is_object(), unsure > 0.25);
        EXPECT_EQ(pasture["loads"]["p2o5"]["mean_per_m2"].is_object(), unsure > 0.25);
        classes += unsure > 0.25 ? 1 : 0;
    }
    EXPECT_GT(classes, 0);
    // No pasture's records of that winter are sure: nodata, 0, 1, 2, 5 ... 1000 at most.
    const std::set<float> values = values_in(*temp_ / "old" / "ground-p2o5.tif");
    EXPECT_GT(values.size(), 4U);
    for (const float value : values) {
        if (value == -9999.0F || value == 0.0F) continue;
        double step = static_cast<double>(value);
        while (step > 9.99) step /= 10.0;
        EXPECT_LT(std::min({std::abs(step - 1.0), std::abs(step - 2.0), std::abs(step - 5.0)}),
                  1e-5)
            << value;
    }
    EXPECT_NE(slurp(*temp_ / "old" / "pastures.csv").find("classes"), std::string::npos);
}

// Another time budget: the same masses, more of it by the line. The planner's lines: the same
// masses, more evenly.
TEST_F(GroundAccounts, SetWhatIfBeside) {
    GroundRequest request{.season = "2026-27", .pastures = {"Corral Trap"}};
    request.measures = {SeasonMeasure::p2o5};
    request.uncertainty.draws = 0;
    request.what_ifs = {"share_line_pct=80", "share_rest_pct=5"};
    const auto piled = run(request, "piled");
    ASSERT_TRUE(piled) << piled.error().what;
    ASSERT_TRUE(piled->what_if);
    const auto& recorded = piled->account.pastures[0][SeasonMeasure::p2o5];
    const auto& other = piled->what_if->account.pastures[0][SeasonMeasure::p2o5];
    EXPECT_NEAR(other.total, recorded.total, 1e-9 * recorded.total);
    EXPECT_GT(other.even->cv_ratio, recorded.even->cv_ratio);
    EXPECT_TRUE(fs::exists(*temp_ / "piled" / "what-if.csv"));
    request.what_ifs.clear();
    request.backcast = true;
    const auto planned = run(request, "planned");
    ASSERT_TRUE(planned) << planned.error().what;
    const auto& anew = planned->what_if->account.pastures[0][SeasonMeasure::p2o5];
    EXPECT_GT(planned->what_if->moved, 0);
    EXPECT_NEAR(anew.total, recorded.total, 1e-9 * recorded.total);
    EXPECT_LT(anew.even->cv_ratio, recorded.even->cv_ratio);
    for (const char* wrong :
         {"share_line_pct", "share_line_pct=x", "nonsense=4", "=", "cell_m=1e9"}) {
        request.what_ifs = {wrong};
        EXPECT_FALSE(run(request, "wrong")) << wrong;
    }
}

TEST_F(GroundAccounts, SayWhatIsWrongWithWhatIsAsked) {
    const auto code = [&](const GroundRequest& request) {
        const auto report = run(request, "wrong");
        return report ? std::string("done") : report.error().code;
    };
    EXPECT_EQ(code({.season = "2026-28"}), "unknown_season");
    EXPECT_EQ(code({.pastures = {"Nowhere"}}), "unknown_pasture");
    EXPECT_EQ(code({.from = parse_day("2027-01-01"), .to = parse_day("2026-01-01")}),
              "dates_reversed");
    GroundRequest stopped;
    std::stop_source stop;
    stop.request_stop();
    stopped.progress.stop = stop.get_token();
    EXPECT_EQ(code(stopped), "cancelled");
    EXPECT_FALSE(fs::exists(*temp_ / "wrong" / "ground-n.tif"));
}

}  // namespace
}  // namespace haylane
