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
    // No change, plan or track is under way, and what was done is shown.
    [[nodiscard]] bool settle() {
        return QTest::qWaitFor(
            [this] {
                QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
                return window_.desk().at_rest() && !window_.busy() &&
                       !window_.week_page()->busy() && !window_.tracks_page()->busy();
            },
            kPatience_ms);
    }
    // By the name that those hear who do not see it.
    template <class Widget>
    [[nodiscard]] static Widget& named(const QWidget& page, const QString& name) {
        for (Widget* one : page.findChildren<Widget*>()) {
            if (one->accessibleName() == name) return *one;
        }
        ADD_FAILURE() << "no " << name.toStdString();
        return *page.findChild<Widget*>();
    }
    // One that is shown, by its text.
    [[nodiscard]] static QPushButton& button(const QWidget& page, const QString& text) {
        for (QPushButton* one : page.findChildren<QPushButton*>()) {
            if (one->text().remove('&') == text && one->isVisible()) return *one;
        }
        ADD_FAILURE() << "no button " << text.toStdString();
        return *page.findChild<QPushButton*>();
    }
    void dismiss() {
        QTest::mouseClick(&button(window_, "Dismiss"), Qt::LeftButton);
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

    static constexpr int kPatience_ms = 600000;  // it ends as soon as what is waited for is there
    QTemporaryDir folder_;
    MainWindow window_;
};

}  // namespace haylane
