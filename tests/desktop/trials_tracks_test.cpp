// The pages of trials and tracks over a small ranch, by mouse and keys where a hand would use them.
#include "app/desktop/tracks/tracks_page.h"
#include "app/desktop/trials/trials_page.h"
#include "tests/desktop/morning_track.h"
#include "tests/desktop/window_test.h"
#include "tests/gis/book_text.h"

#include <QAbstractItemModelTester>
#include <QLineEdit>
#include <QPushButton>

namespace haylane {
namespace {

class RecordPagesTest : public WindowTest {
  protected:
    void SetUp() override {
        WindowTest::SetUp();
        open_small();
    }
    [[nodiscard]] std::filesystem::path book() const { return in_folder("small.gpkg"); }
    [[nodiscard]] const Ranch& ranch() const { return window_.ranch()->open.checked.ranch; }
    void undo() {
        QTest::keyClick(&window_, Qt::Key_Z, Qt::ControlModifier);
        ASSERT_TRUE(settle());
        EXPECT_FALSE(window_.shows_error());
    }
};

class TrialsPageTest : public RecordPagesTest {
  protected:
    [[nodiscard]] TrialForm& form() { return window_.trials_page()->form(); }
    [[nodiscard]] QLineEdit& field(const QString& title) { return named<QLineEdit>(form(), title); }
    void press(const QString& name) {
        for (QPushButton* one : window_.trials_page()->findChildren<QPushButton*>())
            if (one->text().remove('&') == name || one->accessibleName() == name)
                return QTest::mouseClick(one, Qt::LeftButton);
        ADD_FAILURE() << "no button " << name.toStdString();
    }
};

TEST_F(TrialsPageTest, AFeedingIsTimedKeptAndTaken) {
    window_.show_page(window_.trials_page());
    const QAbstractItemModelTester tester(&window_.trials_page()->model(),
                                          QAbstractItemModelTester::FailureReportingMode::Fatal);
    const std::string before = book_text(book());
    press("Keep this feeding");  // without a rig and bales
    EXPECT_TRUE(window_.shows_error());
    dismiss();
    EXPECT_EQ(book_text(book()), before);
    QTest::keyClicks(&field("Rig"), "Tractor");
    QTest::keyClicks(&field("Bales"), "4");
    QTest::keyClicks(&field("Fuel (lb)"), "3.6");
    press("Clock of Feed (min)");
    QTest::qWait(1300);
    press("Clock of Feed (min)");
    EXPECT_GT(field("Feed (min)").text().toDouble(), 0.0);
    EXPECT_LT(field("Feed (min)").text().toDouble(), 1.0);
    press("Keep this feeding");
    ASSERT_TRUE(settle());
    ASSERT_EQ(window_.trials_page()->model().rowCount(), 1);
    // NIST Handbook 44: a pound is 0.45359237 kg.
    EXPECT_NEAR(*window_.trials_page()->model().row(0).number("fuel_kg"), 3.6 * 0.45359237, 1e-9);
    EXPECT_TRUE(window_.trials_page()->told().contains("Tractor"));
    EXPECT_EQ(field("Bales").text(), "");  // the next feeding begins
    EXPECT_EQ(field("Rig").text(), "Tractor");
    undo();
    EXPECT_EQ(book_text(book()), before);
    EXPECT_EQ(window_.trials_page()->model().rowCount(), 0);
}

TEST_F(RecordPagesTest, ATrackIsReadPutRightAcceptedAndUndone) {
    TracksPage& page = *window_.tracks_page();
    window_.show_page(&page);
    const Frame& frame = window_.ranch()->open.frame;
    const Point gate = frame.to_frame({-103.41, 46.305});
    const Point start = gate + Point{250.0, 60.0};
    put("morning.gpx", morning_track(frame, {.stack = frame.to_frame({-103.4105, 46.305}),
                                             .gate = gate,
                                             .start = start,
                                             .end = start + Point{300.0, 0.0}}));
    page.read({in_folder("morning.gpx")});
    EXPECT_TRUE(page.busy());
    ASSERT_TRUE(settle());
    ASSERT_FALSE(window_.shows_error());
    ASSERT_NE(page.proposal(), nullptr);
    ASSERT_EQ(page.proposal()->tracks.size(), 1U);
    ASSERT_EQ(page.proposal()->feedings.size(), 1U);
    EXPECT_NEAR(page.proposal()->feedings[0].length_m, 300.0, 25.0);
    const auto& pieces = page.proposal()->tracks[0].cut.pieces;
    std::size_t laid = pieces.size();
    for (std::size_t i = 0; i < pieces.size(); ++i)
        if (pieces[i].motion == Motion::laying) laid = i;
    ASSERT_LT(laid, pieces.size());

    // Said to have been driving: no feeding is left. And back.
    QTest::mouseClick(page.strip(), Qt::LeftButton, {}, page.strip()->place_of(laid).toPoint());
    ASSERT_EQ(page.strip()->picked(), laid);
    page.correct(Motion::hauling);
    ASSERT_TRUE(settle());
    EXPECT_TRUE(page.proposal()->feedings.empty());
    page.read({in_folder("morning.gpx")});
    ASSERT_TRUE(settle());
    ASSERT_EQ(page.proposal()->feedings.size(), 1U);
    EXPECT_EQ(page.proposal()->feedings[0].not_ready, "");

    const std::string before = book_text(book());
    for (QPushButton* one : page.findChildren<QPushButton*>())
        if (one->text() == "&Accept these feedings") QTest::mouseClick(one, Qt::LeftButton);
    ASSERT_TRUE(settle());
    EXPECT_FALSE(window_.shows_error());
    ASSERT_EQ(ranch().feedings.size(), 1U);
    EXPECT_NE(book_text(book()), before);
    undo();
    EXPECT_EQ(book_text(book()), before);
    EXPECT_TRUE(ranch().feedings.empty());
}

TEST_F(RecordPagesTest, AFileThatIsNoTrackIsSaidAndNothingHappens) {
    TracksPage& page = *window_.tracks_page();
    put("notes.gpx", "these are no tracks");
    page.read({in_folder("notes.gpx")});
    ASSERT_TRUE(settle());
    EXPECT_TRUE(window_.shows_error());
    EXPECT_EQ(page.proposal(), nullptr);
}

}  // namespace
}  // namespace haylane
