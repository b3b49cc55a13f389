// The user's hand on the week, by real mouse and key events: every step shows at once, stands in
// the book, and comes undone and redone with the book's tables as they were, value for value.
// Figures of a line moved are the planner's own.
#include "app/desktop/week/feeding_card.h"
#include "app/desktop/week/give_plan.h"
#include "gis/vector/read_layers.h"
#include "tests/desktop/window_test.h"
#include "tests/gis/book_text.h"

#include <fstream>

#include <QDateEdit>
#include <QLabel>
#include <QPrinter>
#include <QSpinBox>
#include <QToolButton>

namespace haylane {
namespace {

class WeekHandTest : public WindowTest {
  protected:
    void SetUp() override {
        WindowTest::SetUp();
        open_small();
        page().findChild<QSpinBox*>()->setValue(2);
        page().findChild<QDateEdit*>()->setDate({2027, 1, 11});
        page().plan();
        ASSERT_TRUE(settle());
        ASSERT_NE(page().shown(), nullptr);
        ASSERT_EQ(cards().size(), 2);
    }
    [[nodiscard]] WeekPage& page() const { return *window_.week_page(); }
    [[nodiscard]] QUndoStack& stack() { return *window_.desk().undo_stack(); }
    [[nodiscard]] std::filesystem::path book() const { return in_folder("small.gpkg"); }
    [[nodiscard]] QList<FeedingCard*> cards() const { return page().findChildren<FeedingCard*>(); }
    void click(int card, const QString& text) const {
        for (QToolButton* one : cards().at(card)->findChildren<QToolButton*>()) {
            if (one->text() == text) return QTest::mouseClick(one, Qt::LeftButton);
        }
        ADD_FAILURE() << "no button " << text.toStdString();
    }
    [[nodiscard]] bool says(int card, const QString& text) const {
        return cards().at(card)->findChild<QLabel*>()->text().contains(text);
    }
    [[nodiscard]] const Polyline& line(std::size_t feeding) const {
        return page().feedings().at(feeding).lines.front().path;
    }
    // The map's place of the middle of a feeding's line.
    [[nodiscard]] QPoint middle_of(std::size_t feeding) const {
        const Polyline& path = line(feeding);
        return page().map()->place_of(point_at(path, length_m(path) / 2.0)).toPoint();
    }
    void drag(QPoint from, QPoint by) const {
        MapViewWidget* map = page().map();
        QTest::mousePress(map, Qt::LeftButton, {}, from);
        QTest::mouseMove(map, from + by / 2);
        QTest::mouseMove(map, from + by);
        QTest::mouseRelease(map, Qt::LeftButton, {}, from + by);
    }
    // The last step, back and forth: the book's tables and the lines shown are as they were.
    void expect_round_trip(const std::string& before, const Polyline& line_before) {
        const std::string after = book_text(book());
        const Polyline line_after = line(0);
        ASSERT_NE(after, before);
        for (int round = 0; round < 2; ++round) {
            QTest::keyClick(&window_, Qt::Key_Z, Qt::ControlModifier);
            ASSERT_TRUE(settle());
            EXPECT_FALSE(window_.shows_error());
            EXPECT_EQ(book_text(book()), before);
            EXPECT_EQ(line(0), line_before);
            QTest::keyClick(&window_, Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
            ASSERT_TRUE(settle());
            EXPECT_EQ(book_text(book()), after);
            EXPECT_EQ(line(0), line_after);
        }
    }
};

TEST_F(WeekHandTest, HoldsLetsGoAndRecordsADay) {
    const Polyline planned = line(0);
    std::string before = book_text(book());
    click(0, "Hold");
    ASSERT_TRUE(settle());
    EXPECT_TRUE(says(0, "Held"));
    EXPECT_FALSE(says(1, "Held"));
    expect_round_trip(before, planned);

    before = book_text(book());
    click(0, "Let go");
    ASSERT_TRUE(settle());
    EXPECT_FALSE(says(0, "Held"));
    expect_round_trip(before, planned);

    before = book_text(book());
    const int bales = window_.ranch()->open.checked.ranch.lots.front().bales;
    click(0, "Fed as planned");
    ASSERT_TRUE(settle());
    EXPECT_TRUE(says(0, "Fed"));
    EXPECT_LT(window_.ranch()->open.checked.ranch.lots.front().bales, bales);
    ASSERT_EQ(window_.ranch()->open.checked.ranch.feedings.size(), 1U);
    expect_round_trip(before, planned);
    EXPECT_EQ(stack().count(), 4);  // the plan, hold, let go, record
    while (stack().canUndo()) {
        stack().undo();
        ASSERT_TRUE(settle());
    }
    EXPECT_EQ(page().shown(), nullptr);
}

TEST_F(WeekHandTest, DragsALineWithThePlannersFiguresAndPlansRoundIt) {
    const Polyline planned = line(0);
    const std::string before = book_text(book());
    const QPoint at = middle_of(0);
    const QPoint by(-14, 0);
    // What the planner itself says of the line there.
    const Point shift = page().map()->world_at(at + by) - page().map()->world_at(at);
    Polyline there = planned;
    for (Point& p : there) p = p + shift;
    const auto told = page().shown()->mover->move(0, {there});
    ASSERT_TRUE(told);
    ASSERT_TRUE(told->broken.empty()) << told->broken.front();

    drag(at, by);
    // Shown before the new plan is there.
    ASSERT_EQ(line(0).size(), told->feeding.lines.front().path.size());
    for (std::size_t i = 0; i < line(0).size(); ++i)
        EXPECT_LT(distance_m(line(0)[i], told->feeding.lines.front().path[i]), 1e-6);
    EXPECT_TRUE(page().busy() || window_.desk().busy());
    ASSERT_TRUE(settle());
    EXPECT_FALSE(window_.shows_error());
    EXPECT_TRUE(says(0, "Held"));
    EXPECT_LT(distance_m(line(0).front(), there.front()), 0.5);
    EXPECT_EQ(page().feedings().front().by_hand, ByHand::held);
    EXPECT_EQ(stack().count(), 2);  // the plan; the drag with the plan made round it
    expect_round_trip(before, planned);
}

TEST_F(WeekHandTest, ALineThatMayNotLieThereGoesBack) {
    const Polyline planned = line(0);
    const std::string before = book_text(book());
    drag(middle_of(0), {-2000, 0});  // far outside the pasture
    ASSERT_TRUE(settle());
    EXPECT_EQ(line(0), planned);
    EXPECT_EQ(book_text(book()), before);
    EXPECT_TRUE(page().findChild<QLabel*>("note")->text().contains("cannot be laid"));
    // Esc gives a drag up as well.
    QTest::mousePress(page().map(), Qt::LeftButton, {}, middle_of(0));
    QTest::mouseMove(page().map(), middle_of(0) + QPoint(12, 0));
    QTest::keyClick(page().map(), Qt::Key_Escape);
    QTest::mouseRelease(page().map(), Qt::LeftButton, {}, middle_of(0));
    ASSERT_TRUE(settle());
    EXPECT_EQ(book_text(book()), before);
}

TEST_F(WeekHandTest, MovesALineByKeysAlone) {
    const Polyline planned = line(0);
    cards().front()->setFocus();
    QTest::mouseClick(cards().front(), Qt::LeftButton);
    page().map()->setFocus();
    for (int i = 0; i < 4; ++i) QTest::keyClick(page().map(), Qt::Key_Left, Qt::ControlModifier);
    QTest::keyClick(page().map(), Qt::Key_Return);
    ASSERT_TRUE(settle());
    EXPECT_LT(distance_m(line(0).front(), planned.front() + Point{-20.0, 0.0}), 0.5);
}

TEST_F(WeekHandTest, AsksForAnotherWayAndClosesGround) {
    const Polyline planned = line(0);
    std::string before = book_text(book());
    click(0, "Another way");
    EXPECT_TRUE(page().busy());
    ASSERT_TRUE(settle());
    EXPECT_EQ(page().feedings().front().by_hand, ByHand::another);
    EXPECT_TRUE(are_clearly_different({line(0)}, {planned}, 1.0));
    expect_round_trip(before, planned);

    const Polyline other = line(0);
    const Point middle = point_at(other, length_m(other) / 2.0);
    const MultiPolygon area{{{middle + Point{-60, -60}, middle + Point{60, -60},
                              middle + Point{60, 60}, middle + Point{-60, 60}},
                             {}}};
    before = book_text(book());
    page().close_ground(area, {.from = *parse_day("2027-01-11"), .to = *parse_day("2027-01-12")});
    ASSERT_TRUE(settle());
    EXPECT_FALSE(window_.shows_error());
    for (const PlannedFeeding& feeding : page().feedings())
        for (const PlannedLine& laid : feeding.lines)
            for (const Point& p : densified(laid.path, 2.0)) EXPECT_FALSE(contains(area, p));
    expect_round_trip(before, other);
}

TEST_F(WeekHandTest, DrawsALineByMouseAndKeys) {
    const Polyline planned = line(0);
    click(0, "Draw it");
    MapViewWidget* map = page().map();
    for (const Point& p : {planned.front(), planned.back()})
        QTest::mouseClick(map, Qt::LeftButton, {}, map->place_of(p + Point{25.0, 0.0}).toPoint());
    QTest::keyClick(map, Qt::Key_Backspace);
    QTest::mouseClick(map, Qt::LeftButton, {},
                      map->place_of(planned.back() + Point{25.0, 0.0}).toPoint());
    QTest::keyClick(map, Qt::Key_Return);
    ASSERT_TRUE(settle());
    EXPECT_FALSE(window_.shows_error());
    EXPECT_TRUE(says(0, "Held"));
    // To a pixel of the map.
    const double px_m = 1.0 / map->px_per_m();
    EXPECT_LT(distance_m(line(0).front(), planned.front() + Point{25.0, 0.0}), 1.5 * px_m);
}

// Read back by readers that know nothing of the plan.
TEST_F(WeekHandTest, GivesSheetAndLinesAway) {
    for (const char* name : {"lines.gpx", "lines.kml", "lines.geojson"}) {
        const auto written = write_lines(*page().shown(), in_folder(name));
        ASSERT_TRUE(written) << name << ": " << written.error().what;
        const auto layers = read_layers(in_folder(name));
        ASSERT_TRUE(layers) << name << ": " << layers.error().what;
        std::size_t lines = 0;
        for (const SourceLayer& layer : *layers) lines += layer.rows.size();
        EXPECT_EQ(lines, 2U) << name;
    }
    const auto refused = write_lines(*page().shown(), in_folder("lines.txt"));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, "lines_unknown_kind");
    QPrinter printer(QPrinter::HighResolution);
    printer.setOutputFormat(QPrinter::PdfFormat);
    printer.setOutputFileName(QString::fromStdString(in_folder("printed.pdf").string()));
    const auto printed = print_sheet(*page().shown(), printer);
    ASSERT_TRUE(printed) << printed.error().what;
    std::string head(5, '\0');
    std::ifstream(in_folder("printed.pdf"), std::ios::binary).read(head.data(), 5);
    EXPECT_EQ(head, "%PDF-");  // ISO 32000, 7.5.2
}

}  // namespace
}  // namespace haylane
