// The map's transform, its labels (no two touch), and that painting is confined to its rectangle.

#include "app/papers/map_painter.h"

#include "app/papers/gui.h"
#include "app/papers/map_labels.h"
#include "tests/support/sample_plan.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(MapView, GoesToThePageAndBack) {
    const MapView view{{-100.0, -50.0, 300.0, 150.0}, QRectF(10.0, 20.0, 200.0, 200.0)};
    EXPECT_DOUBLE_EQ(view.units_per_m(), 0.5);
    const QPointF middle = view.to_page({100.0, 50.0});
    EXPECT_NEAR(middle.x(), 110.0, 1e-9);
    EXPECT_NEAR(middle.y(), 120.0, 1e-9);
    EXPECT_LT(view.to_page({100.0, 60.0}).y(), middle.y());  // north is up
    const Point back = view.to_world(view.to_page({-37.0, 81.0}));
    EXPECT_NEAR(back.x, -37.0, 1e-9);
    EXPECT_NEAR(back.y, 81.0, 1e-9);
}

TEST(MapLabels, NeverTouchAndMustLabelsAllStand) {
    std::vector<LabelWish> wishes;
    for (int i = 0; i < 12; ++i) {
        wishes.push_back({QString::number(i), QPointF(100.0 + i, 100.0), QSizeF(30.0, 14.0), 0,
                          false, true, true});
        wishes.push_back(
            {"name", QPointF(105.0, 100.0 + i), QSizeF(80.0, 14.0), 5, true, false, false});
    }
    const QRectF page(0.0, 0.0, 300.0, 250.0);
    const QRectF taken(0.0, 220.0, 100.0, 30.0);
    const LabelLayout layout = place_labels(wishes, page, {taken}, {});
    EXPECT_EQ(layout.placed.size() + layout.left_out.size(), wishes.size());
    EXPECT_GE(layout.placed.size(), 12U);
    for (std::size_t i = 0; i < layout.placed.size(); ++i) {
        EXPECT_TRUE(page.contains(layout.placed[i].box));
        EXPECT_FALSE(layout.placed[i].box.intersects(taken));
        for (std::size_t k = 0; k < i; ++k) {
            EXPECT_FALSE(layout.placed[i].box.intersects(layout.placed[k].box)) << i << " " << k;
        }
    }
    for (const LabelWish& wish : layout.left_out) EXPECT_FALSE(wish.must);
}

TEST(MapPainter, PaintsInsideItsRectangleAndNamesEveryHerd) {
    const Gui gui;
    const auto sample = support::sample_plan();
    QImage image(500, 400, QImage::Format_RGB32);
    image.fill(Qt::magenta);
    QPainter painter(&image);
    const MapContent content = map_content(sample.result.plan, sample.ranch);
    const MapView view{box_to_show(content, sample.ranch), QRectF(50.0, 40.0, 400.0, 300.0)};
    const QImage shade = hillshade(*sample.ranch.terrain);
    const MapRecord record = paint_map(painter, view, sample.ranch, content, {}, &shade);
    painter.end();
    ASSERT_EQ(content.lines.size(), 28U);  // 7 days: two lines, one and one
    for (int x = 0; x < 500; ++x) {
        ASSERT_EQ(image.pixelColor(x, 35), QColor(Qt::magenta)) << x;
        ASSERT_EQ(image.pixelColor(x, 345), QColor(Qt::magenta)) << x;
    }
    EXPECT_NE(image.pixelColor(250, 190), QColor(Qt::magenta));
    for (const QString letter : {"A", "B", "C"}) {
        const bool found =
            std::any_of(record.texts.begin(), record.texts.end(), [&](const PlacedText& text) {
                return text.text.startsWith(letter) && text.text.size() > 1 &&
                       text.text[1].isDigit();
            });
        EXPECT_TRUE(found) << letter.toStdString();
    }
    for (const QString& name : record.left_out)
        EXPECT_FALSE(name[1].isDigit()) << name.toStdString();
}

TEST(MapPainter, RingsAreCirclesNotALine) {
    const Gui gui;
    Ranch ranch;
    ranch.pastures.push_back(
        {.name = "Home", .shape = {{{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, {}}}});
    MapContent content;
    content.lines = {{.path = {{20, 50}, {80, 50}}, .rings = {{30, 50}, {70, 50}}}};
    const MapView view{Box{0.0, 0.0, 100.0, 100.0}, QRectF(0.0, 0.0, 400.0, 400.0)};
    const auto hay_at = [&](Point p) {
        QImage image(400, 400, QImage::Format_RGB32);
        QPainter painter(&image);
        static_cast<void>(paint_map(painter, view, ranch, content,
                                    {.text_pt = 4, .north_and_scale = false}, nullptr));
        painter.end();
        const QColor color = image.pixelColor(view.to_page(p).toPoint());
        return color.saturation() > 120;
    };
    EXPECT_TRUE(hay_at({30, 50}));
    EXPECT_TRUE(hay_at({70, 50}));
    EXPECT_FALSE(hay_at({40, 50}));
    content.lines[0].rings.clear();
    EXPECT_TRUE(hay_at({40, 50}));
}

TEST(Hillshade, NorthwestSlopesAreLighter) {
    TerrainData terrain;
    terrain.elevation_m = Raster<float>(Grid{0.0, 0.0, 10.0, 21, 21});
    for (int j = 0; j < 21; ++j) {
        for (int i = 0; i < 21; ++i) {  // a ridge from southwest to northeast
            terrain.elevation_m(i, j) = static_cast<float>(50.0 - 2.0 * std::abs(i - j));
        }
    }
    const QImage image = hillshade(terrain);
    ASSERT_EQ(image.size(), QSize(21, 21));
    EXPECT_GT(image.pixelColor(5, 5).lightness(), image.pixelColor(15, 15).lightness() + 20);
}

}  // namespace
}  // namespace haylane
