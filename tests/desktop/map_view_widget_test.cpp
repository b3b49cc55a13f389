// Checked against a ranch of one square pasture whose place on the screen is worked out by hand,
// and by properties: the place under the pointer stays, round trips, moving there and back.

#include "app/desktop/map/map_view_widget.h"

#include "app/desktop/look.h"

#include <QSignalSpy>
#include <QTest>
#include <QWheelEvent>
#include <gtest/gtest.h>

namespace haylane {
namespace {

// One pasture, 2 km by 2 km, centred on the frame's middle.
std::shared_ptr<const ShownRanch> square_ranch() {
    const auto frame = Frame::centred({-103.36, 46.32});
    if (!frame) return nullptr;
    CheckedRanch checked;
    Pasture pasture;
    pasture.name = "Square";
    pasture.shape = {{{{-1000, -1000}, {1000, -1000}, {1000, 1000}, {-1000, 1000}}, {}}};
    checked.ranch.pastures.push_back(pasture);
    return std::make_shared<const ShownRanch>(ShownRanch{{"", *frame, checked, {}}, {}});
}

int inked_pixels(const QImage& image) {
    int inked = 0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            if (qGray(image.pixel(x, y)) < 100) ++inked;
        }
    }
    return inked;
}

void expect_near(Point a, Point b, double tolerance_m) {
    EXPECT_NEAR(a.x, b.x, tolerance_m);
    EXPECT_NEAR(a.y, b.y, tolerance_m);
}

class MapViewWidgetTest : public testing::Test {
  protected:
    void SetUp() override {
        map_.resize(600, 400);
        ASSERT_NE(ranch_, nullptr);
    }
    std::shared_ptr<const ShownRanch> ranch_ = square_ranch();
    MapViewWidget map_;
};

TEST_F(MapViewWidgetTest, IsBlankPaperWithoutARanch) {
    const QImage image = map_.grab().toImage();
    EXPECT_EQ(inked_pixels(image), 0);
    EXPECT_EQ(image.pixelColor(300, 200), look::kPaper);
    EXPECT_EQ(map_.px_per_m(), 0.0);
    map_.zoom(2.0);
    map_.pan({10.0, 10.0});
    EXPECT_EQ(map_.px_per_m(), 0.0);
}

TEST_F(MapViewWidgetTest, FitsAllOfTheRanchInTheMiddle) {
    map_.set_ranch(ranch_);
    expect_near(map_.world_at({300.0, 200.0}), {0.0, 0.0}, 1e-9);
    for (const Point corner : {Point{-1000, -1000}, Point{1000, 1000}}) {
        EXPECT_TRUE(QRectF(map_.rect()).contains(map_.place_of(corner)));
    }
    // At least two thirds of the height are used.
    EXPECT_GT(map_.px_per_m() * 2000.0, 400.0 * 2.0 / 3.0);
}

// The fence is a square of four lines, each about as long as 2 km at that scale.
TEST_F(MapViewWidgetTest, DrawsTheFenceWhereItBelongs) {
    map_.set_ranch(ranch_);
    const QImage image = map_.grab().toImage();
    const QPointF east = map_.place_of({1000.0, 300.0});
    const int y = static_cast<int>(east.y());
    int darkest = 255;
    for (int x = static_cast<int>(east.x()) - 2; x <= static_cast<int>(east.x()) + 2; ++x) {
        darkest = std::min(darkest, qGray(image.pixel(x, y)));
    }
    EXPECT_LT(darkest, 130);
    const int side_px = static_cast<int>(2000.0 * map_.px_per_m());
    EXPECT_GT(inked_pixels(image), side_px);
}

TEST_F(MapViewWidgetTest, KeepsThePlaceUnderThePointerWhenZooming) {
    map_.set_ranch(ranch_);
    const QPointF pointer(140.0, 90.0);
    const Point held = map_.world_at(pointer);
    const double before = map_.px_per_m();
    map_.zoom(1.7, pointer);
    expect_near(map_.world_at(pointer), held, 1e-6);
    EXPECT_NEAR(map_.px_per_m(), 1.7 * before, 1e-9);
}

TEST_F(MapViewWidgetTest, StopsAtTheNearestAndFarthest) {
    map_.set_ranch(ranch_);
    map_.zoom(1e12);
    const double nearest = map_.px_per_m();
    map_.zoom(2.0);
    EXPECT_EQ(map_.px_per_m(), nearest);
    map_.zoom(1e-12);
    EXPECT_GT(map_.px_per_m(), 0.0);
    EXPECT_FALSE(map_.grab().isNull());
    map_.fit();
    expect_near(map_.world_at({300.0, 200.0}), {0.0, 0.0}, 1e-6);
}

TEST_F(MapViewWidgetTest, FollowsADrag) {
    map_.set_ranch(ranch_);
    const Point held = map_.world_at({200.0, 200.0});
    QTest::mousePress(&map_, Qt::LeftButton, {}, {200, 200});
    QTest::mouseMove(&map_, {260, 170});
    QTest::mouseRelease(&map_, Qt::LeftButton, {}, {260, 170});
    expect_near(map_.world_at({260.0, 170.0}), held, 1e-6);
}

TEST_F(MapViewWidgetTest, MovesAndZoomsByKeys) {
    map_.set_ranch(ranch_);
    const double fitted = map_.px_per_m();
    QTest::keyClick(&map_, Qt::Key_Right);
    EXPECT_GT(map_.world_at({300.0, 200.0}).x, 0.0);
    QTest::keyClick(&map_, Qt::Key_Up);
    EXPECT_GT(map_.world_at({300.0, 200.0}).y, 0.0);
    QTest::keyClick(&map_, Qt::Key_Plus);
    EXPECT_GT(map_.px_per_m(), fitted);
    QTest::keyClick(&map_, Qt::Key_Minus);
    EXPECT_NEAR(map_.px_per_m(), fitted, 1e-12);
    QTest::keyClick(&map_, Qt::Key_F);
    expect_near(map_.world_at({300.0, 200.0}), {0.0, 0.0}, 1e-9);
}

// A map that shows all of the ranch keeps doing so when the window shrinks, until it is moved.
TEST_F(MapViewWidgetTest, AWheelTurnedSidewaysLeavesItFitted) {
    map_.set_ranch(ranch_);
    const auto turn = [this](QPoint angle) {
        QWheelEvent event({300.0, 200.0}, {300.0, 200.0}, {}, angle, Qt::NoButton, Qt::NoModifier,
                          Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(&map_, &event);
    };
    const auto scale_at = [this](int width, int height) {
        map_.resize(width, height);
        map_.grab();
        return map_.px_per_m();
    };
    const double fitted = scale_at(600, 400);
    turn({120, 0});
    const double smaller = scale_at(300, 200);
    EXPECT_LT(smaller, fitted);
    turn({0, 120});
    EXPECT_NEAR(map_.px_per_m(), 1.2 * smaller, 1e-9);
    EXPECT_NEAR(scale_at(600, 400), 1.2 * smaller, 1e-9);
}

TEST_F(MapViewWidgetTest, TellsWhereThePointerIs) {
    map_.set_ranch(ranch_);
    map_.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&map_));
    Point last;
    QObject::connect(&map_, &MapViewWidget::pointed_at, &map_, [&](Point at) { last = at; });
    QTest::mouseMove(&map_, {300, 120});
    EXPECT_NEAR(last.x, 0.0, 1e-9);
    EXPECT_NEAR(last.y * map_.px_per_m(), 80.0, 1e-9);
}

// While moving, the last picture is shown moved; once still, the picture is painted anew and is the
// same as that of a widget that was put there at once.
TEST_F(MapViewWidgetTest, PaintsAnExactPictureOnceStill) {
    map_.set_ranch(ranch_);
    map_.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&map_));
    map_.clearFocus();
    map_.zoom(3.0, {100.0, 100.0});
    const QImage rough = map_.grab().toImage();
    QTest::qWait(400);
    const QImage exact = map_.grab().toImage();
    EXPECT_NE(rough, exact);

    MapViewWidget twin;
    twin.resize(map_.size());
    twin.set_ranch(ranch_);
    twin.zoom(3.0, {100.0, 100.0});
    EXPECT_EQ(inked_pixels(twin.grab().toImage()), inked_pixels(exact));
}

}  // namespace
}  // namespace haylane
