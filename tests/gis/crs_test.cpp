// Checks the door between degrees and metres against published worked examples (IOGP Guidance Note
// 373-7-2, PROJ's own gie test files) and against PROJ's geodesic routines (Karney 2013).
#include "core/base/units.h"
#include "core/geometry/polygon.h"
#include "gis/crs/frame.h"
#include "gis/crs/to_lonlat.h"
#include "gis/vector/csv_table.h"

#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include <geodesic.h>
#include <gtest/gtest.h>

namespace haylane {
namespace {

struct Row {
    const char* crs;
    LonLat place;
    double x;
    double y;
    double tolerance;
};

void expect_row(const Row& row) {
    const auto door = ToLonLat::from_crs(row.crs);
    ASSERT_TRUE(door) << row.crs;
    const auto xy = door->inverse(row.place);
    ASSERT_TRUE(xy) << row.crs;
    EXPECT_NEAR(xy->x, row.x, row.tolerance) << row.crs;
    EXPECT_NEAR(xy->y, row.y, row.tolerance) << row.crs;
    const auto back = door->lonlat(xy->x, xy->y);
    ASSERT_TRUE(back) << row.crs;
    EXPECT_NEAR(back->lon_deg, row.place.lon_deg, 1e-9) << row.crs;
    EXPECT_NEAR(back->lat_deg, row.place.lat_deg, 1e-9) << row.crs;
}

// IOGP 373-7-2 examples on their own ellipsoids (no datum step): EPSG methods 9807 and 9802.
TEST(Crs, AgreesWithTheIogpExamples) {
    expect_row(
        {"+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 "
         "+a=6377563.396 +rf=299.3249646 +units=m +no_defs +type=crs",
         {0.5, 50.5},
         577274.99,
         69740.50,
         0.01});
    expect_row(
        {"+proj=lcc +lat_1=28.3833333333333333 +lat_2=30.2833333333333333 "
         "+lat_0=27.8333333333333333 +lon_0=-99 +x_0=609601.21920243840 +y_0=0 +ellps=clrk66 "
         "+units=us-ft +no_defs +type=crs",
         {-96.0, 28.5},
         2963503.91,
         254759.80,
         0.01});
}

// PROJ test/gie/epsg_no_grid.gie and builtins.gie; the UTM and state plane rows with PROJ 9.1.1.
TEST(Crs, AgreesWithProjTestFiles) {
    expect_row({"EPSG:25832", {12.0, 55.0}, 691875.6321, 6098907.8250, 1e-3});
    expect_row({"EPSG:25832", {12.0, 56.0}, 687071.43910944, 6210141.32674801, 1e-3});
    expect_row({"+proj=utm +zone=30 +ellps=GRS80 +type=crs",
                {2.0, 1.0},
                1057002.405491298,
                110955.141175949,
                1e-3});
    expect_row({"EPSG:32613", {-106.5, 45.5}, 382810.0125, 5039590.7648, 1e-3});
    expect_row({"EPSG:32613", {-105.0, 45.0}, 500000.0, 4982950.4002, 1e-3});
    expect_row({"EPSG:32613", {-102.0, 49.0}, 719413.7013, 5431792.8645, 1e-3});
    expect_row({"EPSG:32614", {-98.5, 41.0}, 542050.8410, 4538877.4382, 1e-3});
    expect_row({"EPSG:32100", {-106.5, 45.5}, 834355.1400, 143413.6775, 1e-3});
    expect_row({"EPSG:32104", {-98.5, 41.0}, 626158.2485, 130625.3259, 1e-3});
    expect_row({"EPSG:32121", {-100.5, 47.0}, 600000.0, 148209.8695, 1e-3});
    expect_row({"EPSG:32134", {-100.0, 44.0}, 600000.0, 18520.9094, 1e-3});
}

TEST(Crs, TakesLongitudeFirstWhateverTheSystemSays) {
    const auto door = ToLonLat::from_crs("EPSG:4258");  // latitude first by its own definition
    ASSERT_TRUE(door);
    const auto place = door->lonlat(12.0, 55.0);
    ASSERT_TRUE(place);
    EXPECT_NEAR(place->lon_deg, 12.0, 1e-7);
    EXPECT_NEAR(place->lat_deg, 55.0, 1e-7);
}

TEST(Crs, RefusesWhatIsNoCoordinateSystem) {
    const auto door = ToLonLat::from_crs("moon cheese");
    ASSERT_FALSE(door);
    EXPECT_EQ(door.error().code, "crs_unreadable");
    EXPECT_FALSE(door.error().remedy.empty());
}

TEST(Crs, AgreesWithTheTransformTable) {
    const std::string path =
        std::string(HAYLANE_SHARED_DATA) + "/oracles/coordinate-transforms.csv";
    if (!std::filesystem::exists(path)) GTEST_SKIP() << "no shared data";
    const auto table = read_csv(path);
    ASSERT_TRUE(table);
    ASSERT_EQ(table->rows.size(), 59U);
    for (const CsvRow& line : table->rows) {
        const auto& row = line.cells;
        expect_row({row[3].c_str(),
                    {std::stod(row[1]), std::stod(row[2])},
                    std::stod(row[5]),
                    std::stod(row[6]),
                    2e-3});
    }
}

TEST(Frame, IsCentredScaledOneAndRoundTrips) {
    const auto frame = Frame::centred({-103.4, 46.31});
    ASSERT_TRUE(frame);
    const Point origin = frame->to_frame({-103.4, 46.31});
    EXPECT_NEAR(origin.x, 0.0, 1e-9);
    EXPECT_NEAR(origin.y, 0.0, 1e-9);
    const LonLat back = frame->to_lonlat(frame->to_frame({-103.1, 46.5}));
    EXPECT_NEAR(back.lon_deg, -103.1, 1e-12);
    EXPECT_NEAR(back.lat_deg, 46.5, 1e-12);
}

TEST(Frame, ComesBackFromItsWkt) {
    const auto frame = Frame::centred({-103.47, 46.31});
    ASSERT_TRUE(frame);
    const auto again = Frame::from_wkt(frame->wkt());
    ASSERT_TRUE(again);
    EXPECT_EQ(again->centre(), frame->centre());
    EXPECT_EQ(again->wkt(), frame->wkt());
    EXPECT_EQ(again->to_frame({-103.2, 46.4}), frame->to_frame({-103.2, 46.4}));
    EXPECT_FALSE(Frame::from_wkt("PROJCS[nonsense"));
}

TEST(Frame, RefusesPolesAndNonsense) {
    EXPECT_FALSE(Frame::centred({0.0, 89.5}));
    EXPECT_FALSE(Frame::centred({std::nan(""), 45.0}));
    EXPECT_FALSE(Frame::centred({200.0, 45.0}));
}

// Lengths to 1.2e-5 within 30 km east or west, against geod_inverse (Karney 2013).
TEST(Frame, LengthsAgreeWithTheGeodesicWithin30Km) {
    geod_geodesic earth;
    geod_init(&earth, 6378137.0, 1.0 / 298.257223563);
    const auto frame = Frame::centred({-103.4, 46.31});
    ASSERT_TRUE(frame);
    double worst = 0.0;
    for (double east = -30000.0; east <= 30000.0; east += 5000.0) {
        for (double heading = 0.0; heading < 180.0; heading += 30.0) {
            const Point a{east, 7000.0};
            const Point b = a + along_azimuth(units::rad_from_deg(heading)) * 400.0;
            if (std::abs(b.x) > 30000.0) continue;
            const LonLat la = frame->to_lonlat(a);
            const LonLat lb = frame->to_lonlat(b);
            double geodesic = 0.0;
            geod_inverse(&earth, la.lat_deg, la.lon_deg, lb.lat_deg, lb.lon_deg, &geodesic, nullptr,
                         nullptr);
            worst = std::max(worst, std::abs(400.0 / geodesic - 1.0));
        }
    }
    EXPECT_LT(worst, 1.2e-5);
    EXPECT_GT(worst, 0.9e-5);  // the scale grows as 1 + x^2 / 2R^2, so it must be near the limit
}

TEST(Frame, AreasAgreeWithTheGeodesicWithin30Km) {
    geod_geodesic earth;
    geod_init(&earth, 6378137.0, 1.0 / 298.257223563);
    const auto frame = Frame::centred({-103.4, 46.31});
    ASSERT_TRUE(frame);
    double worst = 0.0;
    for (double east = -29000.0; east <= 29000.0; east += 14500.0) {
        const Ring ring{{east, 0.0}, {east + 800.0, 0.0}, {east + 800.0, 700.0}, {east, 900.0}};
        std::vector<double> lats;
        std::vector<double> lons;
        for (const Point p : ring) {
            const LonLat place = frame->to_lonlat(p);
            lats.push_back(place.lat_deg);
            lons.push_back(place.lon_deg);
        }
        double area = 0.0;
        double around = 0.0;
        geod_polygonarea(&earth, lats.data(), lons.data(), static_cast<int>(ring.size()), &area,
                         &around);
        worst = std::max(worst, std::abs(ring_area_m2(ring) / area - 1.0));
    }
    EXPECT_LT(worst, 2.4e-5);
    EXPECT_GT(worst, 1.5e-5);
}

TEST(Frame, CentreIsTheMiddleRoundedToHundredths) {
    const std::vector<LonLat> places{{-103.4533, 46.3}, {-103.2, 46.4567}};
    const LonLat centre = frame_centre(places);
    EXPECT_DOUBLE_EQ(centre.lon_deg, -103.33);
    EXPECT_DOUBLE_EQ(centre.lat_deg, 46.38);
}

}  // namespace
}  // namespace haylane
