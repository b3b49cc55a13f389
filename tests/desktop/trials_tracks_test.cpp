// The pages of trials and tracks over a small ranch, by mouse and keys where a hand would use them.
#include "app/desktop/tracks/tracks_page.h"
#include "app/desktop/trials/trials_page.h"
#include "tests/desktop/window_test.h"
#include "tests/gis/book_text.h"

#include <QAbstractItemModelTester>
#include <QLineEdit>
#include <QPushButton>
#include <date/date.h>
#include <fmt/format.h>

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
        for (QPushButton* one : form().findChildren<QPushButton*>())
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
    QTest::keyClicks(&field("rig"), "Tractor");
    QTest::keyClicks(&field("bales"), "4");
    QTest::keyClicks(&field("fuel (lb)"), "3.6");
    press("Clock of feed (min)");
    QTest::qWait(1300);
    press("Clock of feed (min)");
    EXPECT_GT(field("feed (min)").text().toDouble(), 0.0);
    EXPECT_LT(field("feed (min)").text().toDouble(), 1.0);
    press("Keep this feeding");
    ASSERT_TRUE(settle());
    ASSERT_EQ(window_.trials_page()->model().rowCount(), 1);
    // NIST Handbook 44: a pound is 0.45359237 kg.
    EXPECT_NEAR(*window_.trials_page()->model().row(0).number("fuel_kg"), 3.6 * 0.45359237, 1e-9);
    EXPECT_TRUE(window_.trials_page()->told().contains("Tractor"));
    EXPECT_EQ(field("bales").text(), "");  // the next feeding begins
    EXPECT_EQ(field("rig").text(), "Tractor");
    undo();
    EXPECT_EQ(book_text(book()), before);
    EXPECT_EQ(window_.trials_page()->model().rowCount(), 0);
}

// A morning at one fix in 2 s: loading at the stack, out by the gate, a line laid, and back.
std::string morning(const Frame& frame) {
    std::vector<std::pair<Point, double>> fixes;
    double time_s = 1'800'000'000.0;  // 15 January 2027
    const auto stand = [&](Point at, double seconds) {
        for (double t = 0.0; t < seconds; t += 2.0) fixes.emplace_back(at, time_s += 2.0);
    };
    const auto drive = [&](Point from, Point to, double m_per_s) {
        const double length = distance_m(from, to);
        for (double done = 0.0; done < length; done += 2.0 * m_per_s)
            fixes.emplace_back(lerp(from, to, done / length), time_s += 2.0);
    };
    const Point stack = frame.to_frame({-103.4105, 46.305});
    const Point gate = frame.to_frame({-103.41, 46.305});
    const Point start = gate + Point{250.0, 60.0};
    const Point end = start + Point{300.0, 0.0};
    stand(stack, 420.0);
    drive(stack, gate, 3.0);
    drive(gate, start, 3.5);
    drive(start, end, 0.67);
    drive(end, gate, 4.0);
    drive(gate, stack, 3.0);
    stand(stack, 300.0);
    std::string text =
        "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"test\" "
        "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>";
    for (const auto& [at, when] : fixes) {
        const LonLat place = frame.to_lonlat(at);
        const auto second = std::chrono::sys_seconds(std::chrono::seconds(std::lround(when)));
        text += fmt::format("<trkpt lat=\"{:.8f}\" lon=\"{:.8f}\"><time>{}</time></trkpt>\n",
                            place.lat_deg, place.lon_deg, date::format("%FT%TZ", second));
    }
    return text + "</trkseg></trk></gpx>";
}

TEST_F(RecordPagesTest, ATrackIsReadPutRightAcceptedAndUndone) {
    TracksPage& page = *window_.tracks_page();
    window_.show_page(&page);
    put("morning.gpx", morning(window_.ranch()->open.frame));
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
