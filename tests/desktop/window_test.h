#pragma once
// A window in a test, with a folder of its own and the sample ranch to open in it.

#include "app/desktop/main_window.h"
#include "tests/gis/scratch.h"

#include <filesystem>
#include <fstream>
#include <string>

#include <QPushButton>
#include <QTemporaryDir>
#include <QTest>
#include <gtest/gtest.h>

namespace haylane {

class WindowTest : public testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        window_.show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(&window_));
    }
    [[nodiscard]] std::filesystem::path in_folder(const char* name) const {
        return std::filesystem::path(folder_.path().toStdString()) / name;
    }
    [[nodiscard]] bool wait() {
        return QTest::qWaitFor([this] { return !window_.busy(); }, kPatience_ms);
    }
    void dismiss() {
        for (QPushButton* one : window_.findChildren<QPushButton*>())
            if (one->text() == "&Dismiss") QTest::mouseClick(one, Qt::LeftButton);
        EXPECT_FALSE(window_.shows_error());
    }
    // Makes the sample's book through the window and waits until it is shown.
    void open_sample() {
        window_.make_book_from(
            std::filesystem::path(HAYLANE_SOURCE_DIR) / "sample-maps" / "brindle-coulee",
            in_folder("brindle.gpkg"), false);
        EXPECT_TRUE(window_.busy());
        ASSERT_TRUE(wait());
        ASSERT_FALSE(window_.shows_error());
        ASSERT_NE(window_.ranch(), nullptr);
    }

    // One pasture, herd, yard, lot and rig: enough to plan, quick.
    void open_small() {
        put("ranch/pastures.geojson", kHomePasture);
        put("ranch/gates.geojson",
            R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":
{"name":"Road gate"},"geometry":{"type":"Point","coordinates":[-103.41,46.305]}}]})");
        put("ranch/yards.geojson",
            R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":
{"name":"Stack"},"geometry":{"type":"Point","coordinates":[-103.4105,46.305]}}]})");
        put("ranch/herds.csv",
            "herd,head,weight_lb,stage,pastures\nCows,120,1320,mid_gestation,Home\n");
        put("ranch/hay.csv", "lot,yard,kind,bales,bale_lb\nGrass,Stack,grass,200,1300\n");
        put("ranch/rigs.csv",
            "rig,method,bales_per_trip,mass_lb,pto_hp,turn_radius_ft\nTractor,unroll,8,18000,100,"
            "30\n");
        window_.make_book_from(in_folder("ranch"), in_folder("small.gpkg"), false);
        ASSERT_TRUE(wait());
        ASSERT_FALSE(window_.shows_error());
        ASSERT_NE(window_.ranch(), nullptr);
    }
    void put(const char* name, const std::string& text) const {
        std::filesystem::create_directories(in_folder(name).parent_path());
        std::ofstream(in_folder(name), std::ios::binary) << text;
    }

    static constexpr int kPatience_ms = 300000;
    QTemporaryDir folder_;
    MainWindow window_;
};

}  // namespace haylane
