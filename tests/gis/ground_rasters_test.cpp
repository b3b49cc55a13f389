// Season rasters read back by GDAL itself: reference system, units, nodata, sums, and the order of
// directories and data that makes a GeoTIFF cloud-optimised (the rules GDAL's own checker applies:
// overviews' directories follow the first one, their data stand before that of larger images).
#include "gis/raster/ground_rasters.h"

#include "core/base/random.h"
#include "gis/gdal/gdal_session.h"
#include "tests/gis/scratch.h"

#include <cstdlib>
#include <fstream>
#include <limits>
#include <string>

#include <gtest/gtest.h>
#include <ogr_spatialref.h>

namespace haylane {
namespace {

Frame here() { return *Frame::centred({-105.5, 40.5}); }

struct Patch {
    Raster<std::uint8_t> mask;
    Raster<double> kg;
};

Patch patch_at(double x0, double y0, int nx, int ny, std::uint64_t seed) {
    Random random(seed);
    Patch patch{Raster<std::uint8_t>(Grid{x0, y0, 3.0, nx, ny}), {}};
    patch.kg = Raster<double>(patch.mask.grid);
    for (std::size_t c = 0; c < patch.kg.values.size(); ++c) {
        patch.mask.values[c] = random.uniform() < 0.9 ? 1 : 0;
        patch.kg.values[c] = patch.mask.values[c] != 0 ? random.uniform() : 0.0;
    }
    return patch;
}

constexpr double kFactor = 10000.0 / 9.0;  // kg a cell to kg/ha

Result<void> write(const std::filesystem::path& file, const std::vector<Patch>& patches) {
    const Grid extent{-300.0, -150.0, 3.0, 1400, 900};
    auto raster = GroundRaster::begin(
        {file, "p2o5, 2026-27", "kg/ha", {{"SEASON", "2026-27"}, {"UNITS", "kg/ha"}}}, extent,
        here());
    if (!raster) return fail(raster.error());
    for (const Patch& patch : patches) {
        if (auto added = raster->add(patch.mask, patch.kg, kFactor); !added) return added;
    }
    return raster->finish();
}

std::vector<Patch> two_patches() {
    return {patch_at(-300.0, -150.0, 500, 400, 1), patch_at(2400.0, 1500.0, 300, 300, 2)};
}

TEST(GroundRasters, HoldMassUnitsSeasonAndPlace) {
    const Scratch scratch;
    const auto patches = two_patches();
    const auto file = scratch / "ground-p2o5.tif";
    const auto written = write(file, patches);
    ASSERT_TRUE(written) << written.error().what;
    const auto open = open_raster(file);
    ASSERT_TRUE(open) << open.error().what;
    GDALDataset& tif = **open;
    GDALRasterBand& band = *tif.GetRasterBand(1);
    EXPECT_STREQ(band.GetUnitType(), "kg/ha");
    EXPECT_STREQ(tif.GetMetadataItem("SEASON"), "2026-27");
    EXPECT_EQ(band.GetNoDataValue(), -9999.0);
    EXPECT_EQ(band.GetRasterDataType(), GDT_Float32);
    OGRSpatialReference frame;
    frame.importFromWkt(here().wkt().c_str());
    ASSERT_NE(tif.GetSpatialRef(), nullptr);
    EXPECT_TRUE(tif.GetSpatialRef()->IsProjected());
    EXPECT_DOUBLE_EQ(tif.GetSpatialRef()->GetProjParm(SRS_PP_CENTRAL_MERIDIAN), -105.5);
    EXPECT_DOUBLE_EQ(tif.GetSpatialRef()->GetProjParm(SRS_PP_LATITUDE_OF_ORIGIN), 40.5);
    double geo[6] = {};
    tif.GetGeoTransform(geo);
    EXPECT_DOUBLE_EQ(geo[0], -300.0);
    EXPECT_DOUBLE_EQ(geo[3], -150.0 + 900 * 3.0);
    std::vector<float> values(1400U * 900U);
    ASSERT_EQ(band.RasterIO(GF_Read, 0, 0, 1400, 900, values.data(), 1400, 900, GDT_Float32, 0, 0,
                            nullptr),
              CE_None);
    double mass = 0.0;
    std::size_t cells = 0;
    for (const float value : values) {
        if (value == -9999.0F) continue;
        mass += static_cast<double>(value) / kFactor;
        ++cells;
    }
    double expected = 0.0;
    std::size_t expected_cells = 0;
    for (const Patch& patch : patches) {
        for (const double kg : patch.kg.values) expected += kg;
        for (const auto inside : patch.mask.values) expected_cells += inside;
    }
    EXPECT_EQ(cells, expected_cells);
    EXPECT_NEAR(mass / expected, 1.0, 1e-6);
}

long long offset(GDALRasterBand& band, const char* item) {
    const char* text = band.GetMetadataItem(item, "TIFF");
    return text != nullptr ? std::atoll(text) : 0;
}

TEST(GroundRasters, AreCloudOptimised) {
    const Scratch scratch;
    const auto file = scratch / "ground-p2o5.tif";
    ASSERT_TRUE(write(file, two_patches()));
    const auto open = open_raster(file);
    ASSERT_TRUE(open);
    GDALDataset& tif = **open;
    ASSERT_NE(tif.GetMetadataItem("LAYOUT", "IMAGE_STRUCTURE"), nullptr);
    EXPECT_STREQ(tif.GetMetadataItem("LAYOUT", "IMAGE_STRUCTURE"), "COG");
    EXPECT_STREQ(tif.GetMetadataItem("COMPRESSION", "IMAGE_STRUCTURE"), "DEFLATE");
    GDALRasterBand& band = *tif.GetRasterBand(1);
    int width = 0;
    int height = 0;
    band.GetBlockSize(&width, &height);
    EXPECT_EQ(width, 256);
    EXPECT_EQ(height, 256);
    ASSERT_GE(band.GetOverviewCount(), 2);
    // Directories: the full image first, then overviews from large to small.
    long long directory = offset(band, "IFD_OFFSET");
    EXPECT_LT(directory, 1000);
    // Data: the smallest overview first. The middle block of each image holds something.
    long long data = std::numeric_limits<long long>::max();
    const auto first_data = [](GDALRasterBand& image) {
        int w = 0;
        int h = 0;
        image.GetBlockSize(&w, &h);
        const int across = (image.GetXSize() + w - 1) / w;
        const int down = (image.GetYSize() + h - 1) / h;
        for (int y = 0; y < down; ++y) {
            for (int x = 0; x < across; ++x) {
                const std::string item =
                    "BLOCK_OFFSET_" + std::to_string(x) + "_" + std::to_string(y);
                if (const long long at = offset(image, item.c_str()); at > 0) return at;
            }
        }
        return 0LL;
    };
    data = first_data(band);
    ASSERT_GT(data, 0);
    for (int o = 0; o < band.GetOverviewCount(); ++o) {
        GDALRasterBand& overview = *band.GetOverview(o);
        const long long next = offset(overview, "IFD_OFFSET");
        EXPECT_GT(next, directory);
        directory = next;
        const long long smaller = first_data(overview);
        ASSERT_GT(smaller, 0);
        EXPECT_LT(smaller, data);
        data = smaller;
    }
    EXPECT_LT(directory, data);
    EXPECT_LE(std::max(band.GetOverview(band.GetOverviewCount() - 1)->GetXSize(),
                       band.GetOverview(band.GetOverviewCount() - 1)->GetYSize()),
              512);
}

TEST(GroundRasters, AreTheSameEachTimeAndLeaveNothingWhenTheyCannotBeWritten) {
    const Scratch scratch;
    const auto bytes = [](const std::filesystem::path& file) {
        std::ifstream in(file, std::ios::binary);
        return std::string{std::istreambuf_iterator<char>(in), {}};
    };
    ASSERT_TRUE(write(scratch / "a.tif", two_patches()));
    ASSERT_TRUE(write(scratch / "b.tif", two_patches()));
    EXPECT_GT(bytes(scratch / "a.tif").size(), 1000U);
    EXPECT_TRUE(bytes(scratch / "a.tif") == bytes(scratch / "b.tif"));
    EXPECT_FALSE(std::filesystem::exists(scratch / "a.tif.draft"));
    const auto nowhere = write(scratch / "no/such/folder/a.tif", two_patches());
    ASSERT_FALSE(nowhere);
    EXPECT_EQ(nowhere.error().code, "file_not_written");
    EXPECT_FALSE(GroundRaster::begin({scratch / "c.tif", "", "", {}}, Grid{}, here()));
    EXPECT_FALSE(std::filesystem::exists(scratch / "c.tif"));
}

}  // namespace
}  // namespace haylane
