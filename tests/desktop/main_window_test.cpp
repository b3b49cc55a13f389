// The window over the sample ranch: checked against what the sample's README says is in it, and by
// what stays usable after a book that cannot be read.

#include "gis/gdal/gdal_session.h"
#include "tests/desktop/window_test.h"

#include <array>

#include <QAction>
#include <QLabel>
#include <QListView>
#include <QMenuBar>
#include <QPushButton>

namespace haylane {
namespace {

class MainWindowTest : public WindowTest {
  protected:
    void open_sample() {
        WindowTest::open_sample();
        window_.show_page(window_.ranch_page());
    }
    template <class Widget>
    [[nodiscard]] Widget& part() const {
        return *window_.ranch_page()->findChild<Widget*>();
    }
    // All text that labels show.
    [[nodiscard]] QString shown_text() const {
        QStringList texts;
        for (const QLabel* label : window_.findChildren<QLabel*>()) {
            if (label->isVisible()) texts << label->text();
        }
        return texts.join("\n");
    }
};

// Green for 20 km round the frame's middle.
void put_green_picture(const std::filesystem::path& file, const Frame& frame) {
    constexpr int kSide = 400;
    start_gdal();
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    const DatasetPtr made(driver->Create(file.c_str(), kSide, kSide, 3, GDT_Byte, nullptr));
    ASSERT_TRUE(made);
    std::array<double, 6> place{-20000.0, 100.0, 0.0, 20000.0, 0.0, -100.0};
    made->SetGeoTransform(place.data());
    OGRSpatialReference crs;
    ASSERT_EQ(crs.importFromWkt(frame.wkt().c_str()), OGRERR_NONE);
    crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    made->SetSpatialRef(&crs);
    made->GetRasterBand(2)->Fill(180.0);
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

TEST_F(MainWindowTest, StartsWithWhatCanBeDone) {
    EXPECT_TRUE(window_.ranch() == nullptr);
    QStringList buttons;
    for (const QPushButton* button : window_.findChildren<QPushButton*>()) {
        if (button->isVisible()) buttons << button->text();
    }
    EXPECT_EQ(buttons, (QStringList{"&Open a ranch book…", "&Make a book from a folder…",
                                    "&Draw a new ranch…", "&Try the sample ranch…"}));
}

TEST_F(MainWindowTest, ShowsTheSampleRanchOnItsMap) {
    const QImage before = part<MapViewWidget>().grab().toImage();
    open_sample();
    QTest::qWait(300);
    const QImage after = part<MapViewWidget>().grab().toImage();
    EXPECT_EQ(inked_pixels(before), 0);
    // 13 fenced pastures and their names: well over a width of the map in ink.
    EXPECT_GT(inked_pixels(after), 4 * after.width());
    EXPECT_NE(before, after);
    EXPECT_TRUE(window_.windowTitle().startsWith("brindle.gpkg"));
}

// The README's counts: 13 pastures of about 6,067 acres, 3 herds of 210 + 90 + 160, 1,490 bales in
// 8 lots, 889 feedings up to 10 January 2027.
TEST_F(MainWindowTest, SaysInShortWhatTheRanchHas) {
    open_sample();
    const QString text = shown_text();
    EXPECT_TRUE(text.contains("13 with 6,06")) << text.toStdString();
    EXPECT_TRUE(text.contains("3 with 460 head")) << text.toStdString();
    EXPECT_TRUE(text.contains("1,490 bales in 8 lots")) << text.toStdString();
    EXPECT_TRUE(text.contains("last 10 January 2027")) << text.toStdString();
}

TEST_F(MainWindowTest, ListsEveryProblemFound) {
    open_sample();
    const auto* side = window_.ranch_page()->findChild<SidePanel*>();
    ASSERT_NE(side, nullptr);
    EXPECT_EQ(static_cast<std::size_t>(side->problems().rowCount()),
              window_.ranch()->open.checked.problems.size());
}

TEST_F(MainWindowTest, SaysWhyABookCannotBeOpenedAndStaysUsable) {
    window_.open_book(in_folder("not-there.gpkg"));
    ASSERT_TRUE(wait());
    EXPECT_TRUE(window_.shows_error());
    EXPECT_TRUE(window_.ranch() == nullptr);
    EXPECT_TRUE(shown_text().contains("not-there.gpkg")) << shown_text().toStdString();
    open_sample();
    EXPECT_FALSE(window_.shows_error());
}

TEST_F(MainWindowTest, KeepsTheOpenRanchWhenAnotherBookFails) {
    open_sample();
    const auto shown = window_.ranch();
    QFile junk(QString::fromStdString(in_folder("junk.gpkg").string()));
    ASSERT_TRUE(junk.open(QIODevice::WriteOnly));
    ASSERT_GT(junk.write("this is no book"), 0);
    junk.close();
    window_.open_book(in_folder("junk.gpkg"));
    ASSERT_TRUE(wait());
    EXPECT_TRUE(window_.shows_error());
    EXPECT_EQ(window_.ranch(), shown);
    EXPECT_TRUE(part<MapViewWidget>().isVisible());
}

TEST_F(MainWindowTest, NeverReplacesABookUnasked) {
    open_sample();
    window_.make_book_from(
        std::filesystem::path(HAYLANE_SOURCE_DIR) / "sample-maps" / "brindle-coulee",
        in_folder("brindle.gpkg"), false);
    ASSERT_TRUE(wait());
    EXPECT_TRUE(window_.shows_error());
}

TEST_F(MainWindowTest, TakesNoSecondOrderWhileReading) {
    window_.open_book(in_folder("first.gpkg"));
    window_.open_book(in_folder("second.gpkg"));
    ASSERT_TRUE(wait());
    EXPECT_TRUE(shown_text().contains("first.gpkg"));
    EXPECT_FALSE(shown_text().contains("second.gpkg"));
}

TEST_F(MainWindowTest, ClosesWhileReading) {
    auto other = std::make_unique<MainWindow>();
    other->make_book_from(
        std::filesystem::path(HAYLANE_SOURCE_DIR) / "sample-maps" / "brindle-coulee",
        in_folder("other.gpkg"), false);
    other.reset();
    QTest::qWait(50);
    EXPECT_TRUE(std::filesystem::exists(in_folder("other.gpkg")));
}

TEST_F(MainWindowTest, NamesThePastureUnderThePointer) {
    open_sample();
    auto& map = part<MapViewWidget>();
    const Ranch& ranch = window_.ranch()->open.checked.ranch;
    const Pasture& pasture = ranch.pastures.front();
    QTest::mouseMove(&map, map.place_of(label_point(pasture.shape)).toPoint());
    EXPECT_TRUE(shown_text().contains(QString::fromStdString(pasture.name) + "    46."))
        << shown_text().toStdString();
}

// A mile is 1,609.344 m, a square mile 640 acres (NIST Handbook 44); clicks are whole pixels.
TEST_F(MainWindowTest, MeasuresOnTheMap) {
    open_sample();
    MapViewWidget& map = part<MapViewWidget>();
    map.show_box({-1100.0, -1100.0, 1100.0, 1100.0});
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
    MapTool* before = map.tool();
    QTest::keyClick(&window_, Qt::Key_M, Qt::ControlModifier);
    ASSERT_NE(window_.measuring().tool(), nullptr);
    const double half = 1609.344 / 2.0;
    const auto click = [&](double x, double y) {
        QTest::mouseClick(&map, Qt::LeftButton, {}, map.place_of({x, y}).toPoint());
    };
    click(-half, -half);
    EXPECT_EQ(window_.measuring().tool()->words(), "");
    click(half, -half);
    EXPECT_EQ(window_.measuring().tool()->words(), "1.0 mile");
    click(half, half);
    click(-half, half);
    QTest::keyClick(&map, Qt::Key_Return);
    const QStringList said = window_.measuring().tool()->words().split("; ");
    ASSERT_EQ(said.size(), 2);
    EXPECT_EQ(said[0], "3.0 miles");
    EXPECT_NEAR(said[1].section(' ', 0, 0).toDouble(), 640.0, 5.0);
    EXPECT_TRUE(said[1].endsWith(" acres inside"));
    QTest::keyClick(&map, Qt::Key_Escape);
    EXPECT_EQ(window_.measuring().tool(), nullptr);
    EXPECT_EQ(map.tool(), before);
}

TEST_F(MainWindowTest, APictureStandsBehindTheMapAndIsRemembered) {
    open_sample();
    const auto picture = in_folder("air.tif");
    put_green_picture(picture, window_.ranch()->open.frame);
    const auto green = [this] {
        const QColor at = part<MapViewWidget>().grab().toImage().pixelColor(20, 20);
        return at.green() > at.red() + 60;
    };
    EXPECT_FALSE(green());
    window_.put_picture_behind(QString::fromStdString(picture.string()));
    EXPECT_TRUE(QTest::qWaitFor(green, kPatience_ms));
    window_.open_book(in_folder("brindle.gpkg"));
    ASSERT_TRUE(wait());
    EXPECT_TRUE(QTest::qWaitFor(green, kPatience_ms));
    window_.put_picture_behind({});
    EXPECT_FALSE(green());
    window_.put_picture_behind(QString::fromStdString(in_folder("none.tif").string()));
    EXPECT_TRUE(QTest::qWaitFor([this] { return window_.shows_error(); }, kPatience_ms));
    window_.put_picture_behind({});
}

TEST_F(MainWindowTest, FitsTheSmallestScreenItIsMadeFor) {
    open_sample();
    EXPECT_LE(window_.minimumSizeHint().width(), 1280);
    EXPECT_LE(window_.minimumSizeHint().height(), 720);
}

// Every menu entry and button is reached by a letter of its own within its menu or page.
TEST_F(MainWindowTest, GivesEveryEntryALetter) {
    int entries = 0;
    for (const QAction* menu : window_.menuBar()->actions()) {
        QStringList letters;
        for (const QAction* action : menu->menu()->actions()) {
            if (action->isSeparator()) continue;
            ++entries;
            const qsizetype at = action->text().indexOf('&');
            ASSERT_GE(at, 0) << action->text().toStdString();
            letters << action->text().mid(at + 1, 1).toLower();
        }
        EXPECT_EQ(letters.removeDuplicates(), 0);
    }
    EXPECT_EQ(entries, 20);
}

}  // namespace
}  // namespace haylane
