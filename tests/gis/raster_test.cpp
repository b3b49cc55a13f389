// Checks terrain against a plane whose heights are known everywhere, and the ground map against the
// mass that went in.
#include "gis/crs/to_lonlat.h"
#include "gis/gdal/gdal_session.h"
#include "gis/raster/book_terrain.h"
#include "gis/raster/read_terrain.h"
#include "gis/raster/write_ground.h"
#include "tests/gis/scratch.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

// An ASCII grid in UTM 14N: z = 800 + 0.05 x + 0.02 y over 24 x 24 cells of 10 m.
void put_plane(const Scratch& scratch, const std::string& name, double hole) {
    std::string text =
        "ncols 24\nnrows 24\nxllcorner 373300\nyllcorner 4747700\ncellsize 10\n"
        "NODATA_value -9999\n";
    for (int r = 23; r >= 0; --r) {
        for (int c = 0; c < 24; ++c) {
            const double z = 800.0 + 0.05 * (c * 10.0 + 5.0) + 0.02 * (r * 10.0 + 5.0);
            text += std::to_string(hole != 0.0 && c == 12 && r == 12 ? hole : z) + " ";
        }
        text += "\n";
    }
    scratch.put(name + ".asc", text);
    scratch.put(
        name + ".prj",
        "PROJCS[\"WGS 84 / UTM zone 14N\",GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS "
        "84\",6378137,298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\","
        "0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"latitude_of_"
        "origin\",0],PARAMETER[\"central_meridian\",-99],PARAMETER[\"scale_factor\",0.9996],"
        "PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]");
}

// Frame box well inside the plane.
Box inner_box(const Frame& frame) {
    const auto door = ToLonLat::from_crs("EPSG:32614");
    Box box;
    box.add(frame.to_frame(*door->lonlat(373340.0, 4747740.0)));
    box.add(frame.to_frame(*door->lonlat(373500.0, 4747900.0)));
    return box;
}

Frame here() { return *Frame::centred({-100.55, 42.87}); }

TEST(Terrain, IsBilinearOnAPlaneAndSouthFirst) {
    const Scratch scratch;
    put_plane(scratch, "terrain", 0.0);
    const Frame frame = here();
    const auto read = read_terrain(scratch / "terrain.asc", frame, inner_box(frame));
    ASSERT_TRUE(read) << read.error().what;
    EXPECT_DOUBLE_EQ(read->data.own_cell_m, 10.0);
    const auto door = ToLonLat::from_crs("EPSG:32614");
    const auto& raster = read->data.elevation_m;
    int compared = 0;
    for (int j = 0; j < raster.grid.ny; ++j) {
        for (int i = 0; i < raster.grid.nx; ++i) {
            const auto utm = door->inverse(frame.to_lonlat(raster.grid.center(i, j)));
            const double z = 800.0 + 0.05 * (utm->x - 373300.0) + 0.02 * (utm->y - 4747700.0);
            ASSERT_NEAR(static_cast<double>(raster(i, j)), z, 1e-3);
            ++compared;
        }
    }
    EXPECT_GE(compared, 16 * 16);
    ASSERT_EQ(read->problems.size(), 1U);
    EXPECT_EQ(read->problems[0].code, "terrain_unit_assumed");
}

TEST(Terrain, HolesStayHolesWhetherMarkedOrNot) {
    for (const double hole : {-9999.0, -99999.0, 3.0e38}) {
        const Scratch scratch;
        put_plane(scratch, "terrain", hole);
        const Frame frame = here();
        const auto read = read_terrain(scratch / "terrain.asc", frame, inner_box(frame));
        ASSERT_TRUE(read);
        std::size_t unknown = 0;
        for (const float z : read->data.elevation_m.values) {
            unknown += std::isnan(z) ? 1U : 0U;
            if (!std::isnan(z)) {
                EXPECT_GT(z, 799.0F);
                EXPECT_LT(z, 820.0F);
            }
        }
        EXPECT_GE(unknown, 1U) << hole;
        EXPECT_LE(unknown, 9U) << hole;
    }
}

TEST(Terrain, ThatLiesElsewhereIsNamed) {
    const Scratch scratch;
    put_plane(scratch, "terrain", 0.0);
    const Frame frame = *Frame::centred({-103.4, 46.31});
    Box box;
    box.add({0.0, 0.0});
    box.add({500.0, 500.0});
    const auto read = read_terrain(scratch / "terrain.asc", frame, box);
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().code, "terrain_no_overlap");
}

// 1000 ft are 304.8 m (NIST Handbook 44).
TEST(Terrain, FeetBecomeMetersByTheUnitTag) {
    start_gdal();
    const Scratch scratch;
    const Frame frame = here();
    {
        GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
        const DatasetPtr file(
            driver->Create((scratch / "t.tif").c_str(), 8, 8, 1, GDT_Float32, nullptr));
        OGRSpatialReference reference;
        reference.importFromWkt(frame.wkt().c_str());
        double geo[6] = {0.0, 10.0, 0.0, 80.0, 0.0, -10.0};
        file->SetSpatialRef(&reference);
        file->SetGeoTransform(geo);
        std::vector<float> feet(64, 1000.0F);
        ASSERT_EQ(file->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, 8, 8, feet.data(), 8, 8,
                                                   GDT_Float32, 0, 0, nullptr),
                  CE_None);
        file->GetRasterBand(1)->SetUnitType("ft");
    }
    Box box;
    box.add({20.0, 20.0});
    box.add({60.0, 60.0});
    const auto read = read_terrain(scratch / "t.tif", frame, box);
    ASSERT_TRUE(read) << read.error().what;
    EXPECT_NEAR(read->least_m, 304.8, 1e-4);
    EXPECT_NEAR(read->most_m, 304.8, 1e-4);
    EXPECT_TRUE(read->problems.empty());
}

PastureGround ground_at(double x0, double y0, int nx, int ny) {
    PastureGround ground;
    ground.mask = Raster<std::uint8_t>(Grid{x0, y0, 3.0, nx, ny}, 1);
    ground.mask(0, 0) = 0;
    return ground;
}

DepositMap map_on(const PastureGround& ground, double scale) {
    DepositMap map = {};
    for (auto* part : {&map.n_kg, &map.p2o5_kg, &map.k2o_kg}) {
        *part = Raster<double>(ground.mask.grid);
        for (int j = 0; j < ground.mask.grid.ny; ++j) {
            for (int i = 0; i < ground.mask.grid.nx; ++i) {
                if (ground.mask(i, j) != 0) (*part)(i, j) = scale * (0.1 + 0.01 * i + 0.003 * j);
            }
        }
        scale *= 0.5;
    }
    return map;
}

double sum_of(const Raster<double>& raster) {
    double sum = 0.0;
    for (const double value : raster.values) sum += value;
    return sum;
}

TEST(GroundTif, HoldsTheMassOfTheMaps) {
    const Scratch scratch;
    const Frame frame = here();
    // Two pastures whose boxes overlap only where neither has ground, and one far away.
    const PastureGround near = ground_at(-300.0, -150.0, 200, 150);
    const PastureGround far = ground_at(3000.0, 2100.0, 90, 120);
    const DepositMap near_map = map_on(near, 1.0);
    const DepositMap far_map = map_on(far, 2.0);
    const GroundLayer layers[] = {{&near, &near_map}, {&far, &far_map}};
    const auto file = scratch / "ground-after.tif";
    const auto written = write_ground_tif(file, layers, frame);
    ASSERT_TRUE(written) << written.error().what;
    const auto open = open_raster(file);
    ASSERT_TRUE(open);
    GDALDataset& tif = **open;
    ASSERT_EQ(tif.GetRasterCount(), 3);
    const char* const names[] = {"N", "P2O5", "K2O"};
    const double masses[] = {sum_of(near_map.n_kg) + sum_of(far_map.n_kg),
                             sum_of(near_map.p2o5_kg) + sum_of(far_map.p2o5_kg),
                             sum_of(near_map.k2o_kg) + sum_of(far_map.k2o_kg)};
    for (int b = 0; b < 3; ++b) {
        GDALRasterBand* band = tif.GetRasterBand(b + 1);
        EXPECT_STREQ(band->GetDescription(), names[b]);
        EXPECT_EQ(band->GetRasterDataType(), GDT_Float32);
        EXPECT_GE(band->GetOverviewCount(), 1);
        std::vector<float> values(static_cast<std::size_t>(tif.GetRasterXSize()) *
                                  static_cast<std::size_t>(tif.GetRasterYSize()));
        ASSERT_EQ(
            band->RasterIO(GF_Read, 0, 0, tif.GetRasterXSize(), tif.GetRasterYSize(), values.data(),
                           tif.GetRasterXSize(), tif.GetRasterYSize(), GDT_Float32, 0, 0, nullptr),
            CE_None);
        double sum = 0.0;
        std::size_t cells = 0;
        for (const float value : values) {
            if (value == -9999.0F) continue;
            EXPECT_GE(value, 0.0F);
            sum += static_cast<double>(value) * 9.0 / 10000.0;
            ++cells;
        }
        EXPECT_EQ(cells, 200U * 150U - 1U + 90U * 120U - 1U);
        EXPECT_NEAR(sum / masses[b], 1.0, 1e-6);
    }
    // The south-west pasture's north-west cell: row 149 of its grid from the south.
    double geo[6] = {};
    tif.GetGeoTransform(geo);
    EXPECT_DOUBLE_EQ(geo[0], -300.0);
    EXPECT_DOUBLE_EQ(geo[3], 2100.0 + 120.0 * 3.0);
    float cell = 0.0F;
    const int y = static_cast<int>((geo[3] - (-150.0 + 149.5 * 3.0)) / 3.0);
    ASSERT_EQ(tif.GetRasterBand(1)->RasterIO(GF_Read, 0, y, 1, 1, &cell, 1, 1, GDT_Float32, 0, 0,
                                             nullptr),
              CE_None);
    EXPECT_NEAR(static_cast<double>(cell), (0.1 + 0.003 * 149.0) * 10000.0 / 9.0, 1e-2);
}

TEST(GroundTif, IsTheSameEachTimeAndSaysWhenItCannotBeWritten) {
    const Scratch scratch;
    const PastureGround ground = ground_at(0.0, 0.0, 300, 300);
    const DepositMap map = map_on(ground, 1.0);
    const GroundLayer layers[] = {{&ground, &map}};
    const auto bytes = [](const std::filesystem::path& file) {
        std::ifstream in(file, std::ios::binary);
        return std::string{std::istreambuf_iterator<char>(in), {}};
    };
    ASSERT_TRUE(write_ground_tif(scratch / "a.tif", layers, here()));
    ASSERT_TRUE(write_ground_tif(scratch / "b.tif", layers, here()));
    EXPECT_GT(bytes(scratch / "a.tif").size(), 1000U);
    EXPECT_TRUE(bytes(scratch / "a.tif") == bytes(scratch / "b.tif"));
    const auto nowhere = write_ground_tif(scratch / "no/such/folder/a.tif", layers, here());
    ASSERT_FALSE(nowhere);
    EXPECT_EQ(nowhere.error().code, "file_not_written");
}

}  // namespace
}  // namespace haylane
