// The hauls' page over the sample ranch, by real mouse and key events: its figures are those of the
// session's account, and the models keep Qt's rules.

#include "app/desktop/hauls/hauls_page.h"

#include "app/desktop/hauls/haul_days_model.h"
#include "app/desktop/hauls/what_if_row.h"
#include "app/papers/haul_words.h"
#include "tests/desktop/window_test.h"

#include <fstream>

#include <QAbstractItemModelTester>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QTabWidget>
#include <QTableView>

namespace haylane {
namespace {

class HaulsPageTest : public WindowTest {
  protected:
    void SetUp() override {
        WindowTest::SetUp();
        open_sample();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));  // shortcuts want it
        QTest::keyClick(&window_, Qt::Key_3, Qt::ControlModifier);
        ASSERT_TRUE(page().isVisible());
    }
    [[nodiscard]] HaulsPage& page() const { return *window_.hauls_page(); }
    template <class Widget>
    [[nodiscard]] Widget& named(const QString& name) const {
        return WindowTest::named<Widget>(page(), name);
    }
    [[nodiscard]] QPushButton& button(const QString& text) const {
        return WindowTest::button(page(), text);
    }
    [[nodiscard]] bool wait_for_hauls() const {
        return QTest::qWaitFor([this] { return !page().busy(); }, kPatience_ms);
    }
    [[nodiscard]] const Ranch& ranch() const { return window_.ranch()->open.checked.ranch; }
    [[nodiscard]] QTableView& matrix() const { return named<QTableView>("Yards by pastures"); }
    [[nodiscard]] QString cell(int row, int column) const {
        return matrix().model()->index(row, column).data().toString();
    }

    void expect_matrix(const HaulReport& want) const {
        const HaulWords words(ranch(), false);
        const auto best = best_trips(want.account, ranch().rigs.size());
        const int yards = static_cast<int>(ranch().yards.size());
        ASSERT_EQ(matrix().model()->columnCount(), 1 + yards);
        ASSERT_EQ(matrix().model()->rowCount() * yards, static_cast<int>(best.size()));
        for (const HaulTrip& trip : best) {
            int row = 0;
            while (row < matrix().model()->rowCount() &&
                   cell(row, 0) != QString::fromStdString(ranch()[trip.pasture].name))
                ++row;
            const QString text = cell(row, 1 + trip.yard.value);
            EXPECT_EQ(text, trip.reached
                                ? QString::fromStdString(words.money_a_ton(trip.cost_per_kg()))
                                : QString("no way"));
        }
    }
    // The way of the chosen cell is drawn from its yard.
    void expect_way_shown() const {
        const QImage before = page().map()->grab().toImage();
        const QModelIndex at = matrix().model()->index(matrix().model()->rowCount() - 1, 2);
        matrix().scrollTo(at);
        QTest::mouseClick(matrix().viewport(), Qt::LeftButton, {},
                          matrix().visualRect(at).center());
        EXPECT_NE(page().map()->grab().toImage(), before);
        const QString said = named<QLabel>("The way shown").text();
        EXPECT_TRUE(said.startsWith(QString::fromStdString(ranch().yards.at(1).name) + " to " +
                                    cell(at.row(), 0)))
            << said.toStdString();
        QTest::keyClick(&matrix(), Qt::Key_Up);
        EXPECT_NE(named<QLabel>("The way shown").text(), said);
    }
};

TEST_F(HaulsPageTest, ShowsWhatTheSessionsAccountSays) {
    ASSERT_TRUE(page().busy());
    ASSERT_TRUE(wait_for_hauls());
    ASSERT_FALSE(window_.shows_error());
    ASSERT_NE(page().shown(), nullptr);
    const auto want = haul_of_ranch(window_.ranch()->open, {}, {}, false);
    ASSERT_TRUE(want) << want.error().what;
    expect_matrix(*want);
    expect_way_shown();
    const auto& days = *page().findChild<HaulDaysModel*>();
    EXPECT_EQ(days.rowCount(),
              static_cast<int>(1 + want->account.rigs.size() + want->what_ifs.size()));
    EXPECT_EQ(days.index(0, 5).data().toString(),
              QString::fromStdString(HaulWords(ranch(), false)
                                         .money_range(want->account.day.low.per_head(),
                                                      want->account.day.high.per_head())));
    ASSERT_TRUE(want->stacks);
    EXPECT_TRUE(named<QLabel>("Where to stack")
                    .text()
                    .contains(QString::fromStdString(
                        siting_names(want->stacks->proven->best, *want->stacks))));

    const auto file = in_folder("haul-report.pdf");
    page().report_row()->write_to(file);
    ASSERT_TRUE(wait_for_hauls());
    std::string head(5, '\0');
    std::ifstream(file, std::ios::binary).read(head.data(), 5);
    EXPECT_EQ(head, "%PDF-");  // ISO 32000, 7.5.2
}

TEST_F(HaulsPageTest, TriesAChangeAndForgetsItAgain) {
    const QAbstractItemModelTester of_matrix(page().findChild<HaulMatrixModel*>(),
                                             QAbstractItemModelTester::FailureReportingMode::Fatal);
    const QAbstractItemModelTester of_days(page().findChild<HaulDaysModel*>(),
                                           QAbstractItemModelTester::FailureReportingMode::Fatal);
    ASSERT_TRUE(wait_for_hauls());
    const auto& days = *page().findChild<HaulDaysModel*>();
    const int usual = days.rowCount();
    named<QTabWidget>("More on hauling").setCurrentIndex(1);
    auto& value = named<QDoubleSpinBox>("To how much");
    EXPECT_NEAR(value.value(), 3.8, 1e-6) << "the sample's fuel price";
    value.setFocus();
    value.selectAll();
    QTest::keyClicks(&value, "9");
    QTest::mouseClick(&button("Try it"), Qt::LeftButton);
    ASSERT_TRUE(page().busy());
    ASSERT_TRUE(wait_for_hauls());
    ASSERT_EQ(days.rowCount(), usual + 1);
    EXPECT_EQ(days.index(usual, 0).data().toString(), "fuel at 9.00 a gallon");
    const auto& tried = page().shown()->what_ifs.back();
    EXPECT_GT(*tried.day.low.cost, *page().shown()->account.day.low.cost) << "dearer fuel";
    button("Forget them").setFocus();
    QTest::keyClick(&button("Forget them"), Qt::Key_Space);
    ASSERT_TRUE(wait_for_hauls());
    EXPECT_EQ(days.rowCount(), usual);
}

TEST_F(HaulsPageTest, StoppedItCanBeStartedAgain) {
    QTest::mouseClick(&button("Stop"), Qt::LeftButton);
    ASSERT_TRUE(wait_for_hauls());
    EXPECT_FALSE(window_.shows_error());
    EXPECT_EQ(page().shown(), nullptr);
    EXPECT_FALSE(button("Report…").isEnabled());
    QTest::mouseClick(&button("Work it out"), Qt::LeftButton);
    EXPECT_TRUE(page().busy());
}  // the window goes while the account is being made

}  // namespace
}  // namespace haylane
