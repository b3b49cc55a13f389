#pragma once
// A window in a test, with a folder of its own and the sample ranch to open in it.

#include "app/desktop/main_window.h"

#include <filesystem>

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

    static constexpr int kPatience_ms = 60000;
    QTemporaryDir folder_;
    MainWindow window_;
};

}  // namespace haylane
