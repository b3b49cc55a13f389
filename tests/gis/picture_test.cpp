// Pictures written by GDAL in another coordinate system, looked up at places that PROJ finds.
#include "gis/crs/to_lonlat.h"
#include "gis/gdal/gdal_session.h"
#include "gis/raster/read_picture.h"
#include "tests/gis/scratch.h"

#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kLeft = 373000.0;
constexpr double kTop = 4748000.0;
constexpr int kSide = 200;  // pixels of 2 m

Frame here() { return *Frame::centred({-100.55, 42.87}); }

Point in_frame(const Frame& frame, double x, double y) {
    return frame.to_frame(*ToLonLat::from_crs("EPSG:32614")->lonlat(x, y));
}

Box whole_box(const Frame& frame) {
    Box box;
    box.add(in_frame(frame, kLeft - 50.0, kTop - 2.0 * kSide - 50.0));
    box.add(in_frame(frame, kLeft + 2.0 * kSide + 50.0, kTop + 50.0));
    return box;
}

struct Written {
    const char* driver = "GTiff";
    const char* crs = "EPSG:32614";  // empty = none
    GDALDataType type = GDT_Byte;
    int bands = 3;
    bool placed = true;
};

// West half red, east half green; north half 200, south half 100.
void put_picture(const std::filesystem::path& file, const Written& how) {
    start_gdal();
    GDALDriver* memory = GetGDALDriverManager()->GetDriverByName("MEM");
    const DatasetPtr made(memory->Create("", kSide, kSide, how.bands, how.type, nullptr));
    if (how.placed) {
        std::array<double, 6> place{kLeft, 2.0, 0.0, kTop, 0.0, -2.0};
        made->SetGeoTransform(place.data());
    }
    if (*how.crs != '\0') {
        OGRSpatialReference crs;
        crs.SetFromUserInput(how.crs);
        crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
        made->SetSpatialRef(&crs);
    }
    std::vector<std::uint8_t> row(kSide);
    for (int band = 1; band <= how.bands; ++band) {
        for (int j = 0; j < kSide; ++j) {
            for (int i = 0; i < kSide; ++i) {
                const bool west = i < kSide / 2;
                const std::uint8_t light = j < kSide / 2 ? 200 : 100;
                const bool lit = how.bands == 1 || (band == 1 && west) || (band == 2 && !west);
                row[static_cast<std::size_t>(i)] = lit ? light : 0;
            }
            ASSERT_EQ(made->GetRasterBand(band)->RasterIO(GF_Write, 0, j, kSide, 1, row.data(),
                                                          kSide, 1, GDT_Byte, 0, 0),
                      CE_None);
        }
    }
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName(how.driver);
    const DatasetPtr written(
        driver->CreateCopy(file.c_str(), made.get(), 0, nullptr, nullptr, nullptr));
    ASSERT_TRUE(written);
}

std::uint32_t color_at(const GroundPicture& picture, Point p) {
    const double x = (p.x - picture.at.min_x) / (picture.at.max_x - picture.at.min_x);
    const double y = (picture.at.max_y - p.y) / (picture.at.max_y - picture.at.min_y);
    const auto i = static_cast<std::size_t>(x * picture.nx);
    const auto j = static_cast<std::size_t>(y * picture.ny);
    return picture.argb.at(j * static_cast<std::size_t>(picture.nx) + i);
}

std::string code_of(const std::filesystem::path& file, const Box& box) {
    const auto read = read_picture(file, here(), box);
    return read ? "" : read.error().code;
}

TEST(Picture, LiesWhereProjSaysAndKeepsItsColours) {
    const Scratch scratch;
    put_picture(scratch / "air.tif", {});
    const Frame frame = here();
    const auto read = read_picture(scratch / "air.tif", frame, whole_box(frame));
    ASSERT_TRUE(read) << read.error().what;
    EXPECT_EQ(read->argb.size(), static_cast<std::size_t>(read->nx * read->ny));
    // Ten metres to either side of the middle, in all four quarters.
    const double x = kLeft + kSide;
    const double y = kTop - kSide;
    EXPECT_EQ(color_at(*read, in_frame(frame, x - 10.0, y + 10.0)), 0xffc80000U);
    EXPECT_EQ(color_at(*read, in_frame(frame, x + 10.0, y + 10.0)), 0xff00c800U);
    EXPECT_EQ(color_at(*read, in_frame(frame, x - 10.0, y - 10.0)), 0xff640000U);
    EXPECT_EQ(color_at(*read, in_frame(frame, x + 10.0, y - 10.0)), 0xff006400U);
    // Just inside and just outside its corners.
    EXPECT_EQ(color_at(*read, in_frame(frame, kLeft + 6.0, kTop - 6.0)), 0xffc80000U);
    EXPECT_NEAR((read->at.max_x - read->at.min_x) / read->nx, 2.0, 0.05);
}

TEST(Picture, OnlyTheBoxIsReadAndNoFinerThanAsked) {
    const Scratch scratch;
    put_picture(scratch / "air.tif", {});
    const Frame frame = here();
    Box box;
    box.add(in_frame(frame, kLeft + 20.0, kTop - 120.0));
    box.add(in_frame(frame, kLeft + 120.0, kTop - 20.0));
    const auto read = read_picture(scratch / "air.tif", frame, box, {.most_px_a_side = 25});
    ASSERT_TRUE(read) << read.error().what;
    EXPECT_LE(std::max(read->nx, read->ny), 25);
    EXPECT_NEAR(read->at.min_x, box.min_x, 1e-9);
    EXPECT_NEAR(read->at.max_y, box.max_y, 1e-9);
    EXPECT_EQ(color_at(*read, in_frame(frame, kLeft + 70.0, kTop - 70.0)), 0xffc80000U);
}

TEST(Picture, GreyIsGreyAndOutsideIsClear) {
    const Scratch scratch;
    put_picture(scratch / "grey.tif", {.bands = 1});
    const Frame frame = here();
    const auto read = read_picture(scratch / "grey.tif", frame, whole_box(frame));
    ASSERT_TRUE(read) << read.error().what;
    EXPECT_EQ(color_at(*read, in_frame(frame, kLeft + 50.0, kTop - 50.0)), 0xffc8c8c8U);
    // The frame is turned against the file's grid: a corner of the box lies beside the picture.
    EXPECT_EQ(read->argb.front() >> 24U, 0U);
}

TEST(Picture, SaysWhatIsWrong) {
    const Scratch scratch;
    const Box box = whole_box(here());
    EXPECT_EQ(code_of(scratch / "none.tif", box), "file_missing");
    put_picture(scratch / "nowhere.png", {.driver = "PNG", .crs = "", .placed = false});
    EXPECT_EQ(code_of(scratch / "nowhere.png", box), "picture_no_place");
    scratch.put("nowhere.pgw", "2\n0\n0\n-2\n373001\n4747999\n");
    EXPECT_EQ(code_of(scratch / "nowhere.png", box), "picture_no_crs");
    put_picture(scratch / "deep.tif", {.type = GDT_UInt16});
    EXPECT_EQ(code_of(scratch / "deep.tif", box), "picture_not_8_bit");
    put_picture(scratch / "far.tif", {.crs = "EPSG:32610"});
    EXPECT_EQ(code_of(scratch / "far.tif", box), "picture_elsewhere");
    scratch.put("words.jpg", "no picture at all");
    EXPECT_EQ(code_of(scratch / "words.jpg", box), "file_unreadable");
    // A VRT may name other files: it is no picture here, whatever its name.
    scratch.put("other.tif", "<VRTDataset rasterXSize=\"2\" rasterYSize=\"2\"></VRTDataset>");
    EXPECT_EQ(code_of(scratch / "other.tif", box), "file_unreadable");
}

TEST(Picture, CutShortItIsSaidToBeDamaged) {
    const Scratch scratch;
    put_picture(scratch / "air.tif", {});
    const auto size = std::filesystem::file_size(scratch / "air.tif");
    std::filesystem::resize_file(scratch / "air.tif", size * 2 / 3);
    const std::string code = code_of(scratch / "air.tif", whole_box(here()));
    EXPECT_TRUE(code == "picture_damaged" || code == "file_unreadable" ||
                code == "picture_no_place")
        << code;
}

TEST(Picture, StopsWhenTold) {
    const Scratch scratch;
    put_picture(scratch / "air.tif", {});
    std::stop_source stop;
    stop.request_stop();
    Progress progress;
    progress.stop = stop.get_token();
    const auto read = read_picture(scratch / "air.tif", here(), whole_box(here()), {}, progress);
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().code, "cancelled");
}

}  // namespace
}  // namespace haylane
