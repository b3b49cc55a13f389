// The ranch drawn and edited by real mouse and key events; areas and units against plane geometry
// and NIST Handbook 44 (acre 4046.8564224 m², pound 0.45359237 kg).
#include "app/desktop/ranch/ranch_page.h"

#include "tests/desktop/window_test.h"
#include "tests/gis/book_text.h"

#include <QAbstractItemModelTester>
#include <QApplication>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QTabWidget>
#include <QTableView>
#include <QTimer>

namespace haylane {
namespace {

class RanchPageTest : public WindowTest {
  protected:
    [[nodiscard]] RanchPage& page() const { return *window_.ranch_page(); }
    [[nodiscard]] MapViewWidget& map() const { return *page().map(); }
    [[nodiscard]] const Ranch& ranch() const { return window_.ranch()->open.checked.ranch; }
    void click(Point world) const {
        QTest::mouseClick(&map(), Qt::LeftButton, {}, map().place_of(world).toPoint());
    }
    void drag(Point from, Point to) const {
        const QPoint a = map().place_of(from).toPoint();
        const QPoint b = map().place_of(to).toPoint();
        QTest::mousePress(&map(), Qt::LeftButton, {}, a);
        QTest::mouseMove(&map(), (a + b) / 2);
        QTest::mouseMove(&map(), b);
        QTest::mouseRelease(&map(), Qt::LeftButton, {}, b);
    }
    // Types into the dialog that opens next, and accepts it by the Enter key.
    void answer(const QString& text) const {
        QTimer::singleShot(0, [this, text] { answer_now(text, 50); });
    }
    void answer_now(const QString& text, int tries) const {
        QWidget* dialog = QApplication::activeModalWidget();
        if (dialog == nullptr && tries > 0) {
            QTimer::singleShot(20, [this, text, tries] { answer_now(text, tries - 1); });
            return;
        }
        ASSERT_NE(dialog, nullptr) << "no dialog for " << text.toStdString();
        auto* line = dialog->findChild<QLineEdit*>();
        ASSERT_NE(line, nullptr);
        line->selectAll();
        QTest::keyClicks(line, text);
        QTest::keyClick(line, Qt::Key_Return);
    }
    void draw(const char* role, const std::vector<Point>& corners, const QString& name) {
        page().draw(role);
        for (const Point& p : corners) {
            if (corners.size() == 1) answer(name);
            click(p);
        }
        if (corners.size() > 1) {
            answer(name);
            QTest::keyClick(&map(), Qt::Key_Return);
        }
        ASSERT_TRUE(settle());
        ASSERT_FALSE(window_.shows_error());
    }
    // Adds a row to a table by its button, and writes cells by their column's title.
    void fill(const char* role, const QString& name,
              const std::vector<std::pair<QString, QString>>& cells) {
        page().findChild<QTabWidget*>()->setCurrentWidget(&page().tables());
        page().tables().show_role(role);
        answer(name);
        for (QPushButton* one : page().tables().findChildren<QPushButton*>())
            if (one->text() == "&Add a row") QTest::mouseClick(one, Qt::LeftButton);
        ASSERT_TRUE(settle());
        RowTableModel& model = page().tables().model();
        const int row = model.rowCount() - 1;
        for (const auto& [title, text] : cells) {
            int column = -1;
            for (int i = 0; i < model.columnCount(); ++i)
                if (model.headerData(i, Qt::Horizontal, Qt::DisplayRole) == title) column = i;
            ASSERT_GE(column, 0) << title.toStdString();
            QTableView& table = page().tables().table();
            table.setCurrentIndex(model.index(row, column));
            table.edit(model.index(row, column));
            QLineEdit* editor = nullptr;  // not one that is about to go
            for (QLineEdit* one : table.findChildren<QLineEdit*>())
                if (one->isVisible()) editor = one;
            ASSERT_NE(editor, nullptr);
            QTest::keyClicks(editor, text);
            QTest::keyClick(editor, Qt::Key_Return);
            QCoreApplication::processEvents();  // what is written is taken a moment later
            ASSERT_TRUE(settle());
        }
    }
    void undo_all() {
        // The window is active again after the dialogs; a field that is written in would take
        // Ctrl+Z for itself.
        window_.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
        for (int step = 0; step < 100 && window_.desk().undo_stack()->canUndo(); ++step) {
            window_.week_page()->map()->setFocus();
            map().setFocus();
            QTest::keyClick(&window_, Qt::Key_Z, Qt::ControlModifier);
            ASSERT_TRUE(settle());
            ASSERT_FALSE(window_.shows_error());
        }
        ASSERT_FALSE(window_.desk().undo_stack()->canUndo());
    }
};

TEST_F(RanchPageTest, DrawsARanchFromNothingAndPlansIt) {
    window_.begin_ranch("Long Draw", {-103.4, 46.3}, in_folder("new.gpkg"), false);
    ASSERT_TRUE(wait());
    ASSERT_FALSE(window_.shows_error());
    ASSERT_TRUE(page().isVisible());  // what is begun is drawn first
    const std::string empty = book_text(in_folder("new.gpkg"));
    draw("pastures", {{-600, -300}, {-100, -300}, {-100, 300}, {-600, 300}}, "West");
    // Its corners go to those of the first, though the hand was a few metres off.
    draw("pastures", {{-97, -303}, {400, -300}, {400, 300}, {-103, 297}}, "East");
    draw("pastures", {{-600, 301}, {400, 301}, {400, 600}, {-600, 600}}, "North");
    ASSERT_EQ(ranch().pastures.size(), 3U);
    EXPECT_NEAR(area_m2(ranch().pastures[0].shape), 500.0 * 600.0, 5000.0);
    draw("gates", {{-350, -300}}, "West gate");
    draw("gates", {{-100, 0}}, "Middle gate");
    ASSERT_EQ(ranch().gates.size(), 2U);
    draw("yards", {{-350, -380}}, "Stack");
    fill("herds", "Cows", {{"Head", "120"}, {"Weight (lb)", "1320"}, {"Pastures", "West;East"}});
    fill("hay", "Grass", {{"Yard", "Stack"}, {"Bales", "200"}, {"Bale (lb)", "1300"}});
    fill("rigs", "Tractor",
         {{"Method", "unroll"},
          {"Bales per trip", "8"},
          {"Mass (lb)", "18000"},
          {"PTO (hp)", "100"},
          {"Turn radius (ft)", "30"}});
    ASSERT_EQ(ranch().herds.size(), 1U);
    EXPECT_NEAR(ranch().herds[0].weight_kg, 1320.0 * 0.45359237, 1e-9);
    ASSERT_EQ(ranch().rigs.size(), 1U);
    for (const Problem& problem : window_.ranch()->open.checked.problems)
        EXPECT_NE(problem.severity, Severity::error) << problem.where << ": " << problem.text;

    WeekPage& week = *window_.week_page();
    window_.show_page(&week);
    week.findChild<QSpinBox*>()->setValue(1);
    week.plan();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !week.busy(); }, 300000));
    EXPECT_FALSE(window_.shows_error());
    ASSERT_NE(week.shown(), nullptr);
    EXPECT_EQ(week.feedings().size(), 1U);
    undo_all();
    EXPECT_EQ(book_text(in_folder("new.gpkg")), empty);
}

TEST_F(RanchPageTest, AGateIsDraggedAndComesBack) {
    open_small();
    window_.show_page(&page());
    QTest::qWait(10);
    const std::string before = book_text(in_folder("small.gpkg"));
    const Point gate = ranch().gates.front().at;
    drag(gate, gate + Point{0, 150});
    ASSERT_TRUE(settle());
    // To a pixel.
    EXPECT_LT(distance_m(ranch().gates.front().at, gate + Point{0, 150}), 1.5 / map().px_per_m());
    undo_all();
    EXPECT_EQ(book_text(in_folder("small.gpkg")), before);
    EXPECT_EQ(ranch().gates.front().at, gate);
}

TEST_F(RanchPageTest, SplitsAPastureDragsTheSharedCornerAndJoinsAgain) {
    open_small();
    window_.show_page(&page());
    QTest::qWait(10);
    const std::string before = book_text(in_folder("small.gpkg"));
    const Box home = box_of(ranch().pastures.front().shape);
    const double whole = area_m2(ranch().pastures.front().shape);
    const double middle_y = (home.min_y + home.max_y) / 2.0;
    click({home.min_x + 60.0, middle_y + 200.0});
    ASSERT_NE(page().hand().picked(), nullptr);
    page().split_picked();
    for (const Point& p : {Point{home.min_x - 40.0, middle_y}, Point{home.max_x + 40.0, middle_y}})
        click(p);
    QTest::keyClick(&map(), Qt::Key_Return);
    ASSERT_TRUE(settle());
    ASSERT_EQ(ranch().pastures.size(), 2U);
    EXPECT_EQ(ranch().pastures[1].name, "Home 2");
    EXPECT_NEAR(area_m2(ranch().pastures[0].shape) + area_m2(ranch().pastures[1].shape), whole,
                1.0);
    // The corner that both have at the new fence's west end goes along in both.
    Point corner;
    for (const Point& p : ranch().pastures[0].shape.front().outer)
        if (std::abs(p.y - middle_y) < 20.0 && std::abs(p.x - home.min_x) < 20.0) corner = p;
    ASSERT_NE(corner, Point{});
    drag(corner, corner + Point{0, -100});
    ASSERT_TRUE(settle());
    EXPECT_NEAR(area_m2(ranch().pastures[0].shape) + area_m2(ranch().pastures[1].shape), whole,
                whole * 0.01);
    for (const Problem& problem : window_.ranch()->open.checked.problems)
        EXPECT_NE(problem.code, "overlapping_pastures");
    ASSERT_EQ(page().hand().picked()->role, "pastures");
    const std::string other = page().hand().picked()->name == "Home" ? "Home 2" : "Home";
    for (const DrawnRow& row : page().hand().rows())
        if (row.name == other) {
            page().join_picked(row.uuid);
            break;
        }
    ASSERT_TRUE(settle());
    EXPECT_FALSE(window_.shows_error());
    ASSERT_EQ(ranch().pastures.size(), 1U);
    undo_all();
    EXPECT_EQ(book_text(in_folder("small.gpkg")), before);
}

TEST_F(RanchPageTest, CellsSayTheirUnitAndRefuseWords) {
    open_small();
    window_.show_page(&page());
    page().tables().show_role("herds");
    RowTableModel& model = page().tables().model();
    const QAbstractItemModelTester tester(&model,
                                          QAbstractItemModelTester::FailureReportingMode::Fatal);
    const QAbstractItemModelTester settings(&page().settings().model(),
                                            QAbstractItemModelTester::FailureReportingMode::Fatal);
    const QModelIndex weight = model.index(0, 2);
    EXPECT_EQ(model.headerData(2, Qt::Horizontal, Qt::DisplayRole).toString(), "Weight (lb)");
    EXPECT_EQ(weight.data().toString(), "1320");
    EXPECT_FALSE(model.setData(weight, "heavy", Qt::EditRole));
    EXPECT_TRUE(window_.shows_error());
    dismiss();
    // Metric units are a step to undo as any other.
    const std::string before = book_text(in_folder("small.gpkg"));
    for (QAction* action : window_.findChildren<QAction*>())
        if (action->text() == "&Metric units") action->trigger();
    ASSERT_TRUE(settle());
    EXPECT_EQ(model.headerData(2, Qt::Horizontal, Qt::DisplayRole).toString(), "Weight (kg)");
    EXPECT_EQ(model.index(0, 2).data().toString(), "598.74");  // 1320 lb
    undo_all();
    EXPECT_EQ(book_text(in_folder("small.gpkg")), before);
}

TEST_F(RanchPageTest, ASettingIsSetAndBlankAgain) {
    open_small();
    SettingsModel& model = page().settings().model();
    const auto row_of = [&model](const QString& words) {
        for (int i = 0; i < model.rowCount(); ++i)
            if (model.index(i, SettingsModel::key).data() == words) return i;
        ADD_FAILURE() << "no setting " << words.toStdString();
        return 0;
    };
    const int row = row_of("Slope limit");
    EXPECT_EQ(model.index(row, SettingsModel::usual).data().toString(), "12");
    EXPECT_TRUE(model.about(row).contains("Steepest"));
    ASSERT_TRUE(model.setData(model.index(row, SettingsModel::own), "9", Qt::EditRole));
    ASSERT_TRUE(settle());
    EXPECT_NEAR(ranch().settings.slope_limit_ratio, 0.09, 1e-12);
    EXPECT_EQ(model.index(row, SettingsModel::own).data().toString(), "9");
    ASSERT_TRUE(model.setData(model.index(row, SettingsModel::own), "", Qt::EditRole));
    ASSERT_TRUE(settle());
    EXPECT_NEAR(ranch().settings.slope_limit_ratio, 0.12, 1e-12);

    // The ranch speaks US. NIST Handbook 44: a foot is 0.3048 m.
    const int clearance = row_of("Fence clearance");
    EXPECT_EQ(model.index(clearance, SettingsModel::unit).data().toString(), "ft");
    EXPECT_EQ(model.index(clearance, SettingsModel::usual).data().toString(), "19.69");  // 6 m
    ASSERT_TRUE(model.setData(model.index(clearance, SettingsModel::own), "30", Qt::EditRole));
    ASSERT_TRUE(settle());
    EXPECT_NEAR(ranch().settings.fence_clearance_m, 30 * 0.3048, 1e-12);
    EXPECT_EQ(model.index(clearance, SettingsModel::own).data().toString(), "30");
    EXPECT_EQ(model.index(clearance, SettingsModel::unit).data().toString(), "ft");
}

}  // namespace
}  // namespace haylane
