// Pictures of every page over the sample ranch, to be looked at: `screens FOLDER`. No test.

#include "app/desktop/look.h"
#include "app/desktop/main_window.h"
#include "gis/book/edit_rows.h"
#include "tests/desktop/morning_track.h"

#include <cstdio>
#include <fstream>

#include <QApplication>
#include <QComboBox>
#include <QPushButton>
#include <QSettings>
#include <QTabWidget>
#include <QTemporaryDir>
#include <QTest>

namespace haylane {
namespace {

constexpr int kPatience_ms = 600000;

class Screens {
  public:
    explicit Screens(std::filesystem::path out) : out_(std::move(out)) {
        window_.resize(1280, 720);
        window_.show();
    }

    // false = something did not go as it should; said on standard error.
    bool take() {
        grab("start");
        window_.make_book_from(
            std::filesystem::path(HAYLANE_SOURCE_DIR) / "sample-maps" / "brindle-coulee",
            in_folder("brindle.gpkg"), false);
        if (!wait([this] { return !window_.busy(); }, "the book") || !window_.ranch()) return false;
        grab("week-before");
        window_.week_page()->plan();
        if (!wait([this] { return !window_.week_page()->busy(); }, "the plan")) return false;
        if (!window_.week_page()->shown()) return false;
        grab("week");
        take_measuring();
        take_ground();
        take_hauls();
        take_trials();
        take_tracks();
        take_ranch();
        return ok_;
    }

  private:
    void take_measuring() {
        MapViewWidget& map = *window_.week_page()->map();
        QTest::keyClick(&window_, Qt::Key_M, Qt::ControlModifier);
        for (const QPoint at : {QPoint(300, 300), QPoint(430, 300), QPoint(430, 400)})
            QTest::mouseClick(&map, Qt::LeftButton, {}, at);
        grab("week-measuring");
        QTest::keyClick(&map, Qt::Key_Escape);
    }
    void take_ground() {
        GroundPage& page = *window_.ground_page();
        window_.show_page(&page);
        QTest::qWait(50);
        wait([&page] { return !page.busy(); }, "the ground");
        grab("ground");
        const auto boxes = page.findChildren<QComboBox*>();
        for (QComboBox* box : boxes)
            if (box->count() > 1) box->setCurrentIndex(box->count() - 1);
        QTest::qWait(50);
        wait([&page] { return !page.busy(); }, "the ground beside");
        grab("ground-beside");
    }
    void take_hauls() {
        HaulsPage& page = *window_.hauls_page();
        window_.show_page(&page);
        QTest::qWait(50);
        wait([&page] { return !page.busy(); }, "the hauls");
        grab_tabs(page, "hauls");
    }
    void take_trials() {
        TrialsPage& page = *window_.trials_page();
        window_.show_page(&page);
        grab("trials-before");
        for (int i = 0; i < 6; ++i) {
            RowEdit row;
            row.role = "trials";
            row.fields = {
                {"rig",
                 window_.ranch()->open.checked.ranch.rigs.at(static_cast<std::size_t>(i % 2)).name},
                {"date", "2027-01-1" + std::to_string(i / 2)},
                {"pair", std::string(1, static_cast<char>('a' + i / 2))},
                {"bales", 4.0},
                {"feed_s", 1500.0 + 400.0 * (i % 2) + 37.0 * i},
                {"fuel_kg", 2.0 + 0.9 * (i % 2) + 0.11 * i * (1 + i % 2)}};
            window_.ranch_page()->edit("trial", {row});
            wait([this] { return window_.desk().at_rest(); }, "the trial");
        }
        grab("trials");
    }
    void take_tracks() {
        TracksPage& page = *window_.tracks_page();
        window_.show_page(&page);
        grab("tracks-before");
        const auto& open = window_.ranch()->open;
        const auto& fed = window_.week_page()->feedings().front();
        const Point start = fed.lines.front().path.front();
        std::ofstream(in_folder("morning.gpx"))
            << morning_track(open.frame, {.stack = open.checked.ranch.yards.front().at,
                                          .gate = start + Point{-300.0, -60.0},
                                          .start = start,
                                          .end = fed.lines.front().path.back(),
                                          .feed_m_per_s = 1.3});
        page.read({in_folder("morning.gpx")});
        wait([&page] { return !page.busy(); }, "the track");
        grab("tracks");
    }
    void take_ranch() {
        window_.show_page(window_.ranch_page());
        grab_tabs(*window_.ranch_page(), "ranch");
    }

    void grab_tabs(QWidget& page, const std::string& name) {
        QTabWidget* tabs = nullptr;
        for (QTabWidget* one : page.findChildren<QTabWidget*>())
            if (tabs == nullptr) tabs = one;
        for (int i = 0; tabs != nullptr && i < tabs->count(); ++i) {
            tabs->setCurrentIndex(i);
            grab(name + "-" + std::to_string(i + 1));
        }
    }
    void grab(const std::string& name) {
        QTest::qWait(600);  // the map is painted anew once it is still
        const QString file = QString::fromStdString((out_ / (name + ".png")).string());
        if (!window_.grab().save(file)) fail("Cannot write " + file.toStdString());
    }
    template <class Done>
    bool wait(Done done, const char* what) {
        if (QTest::qWaitFor(done, kPatience_ms)) return true;
        fail(std::string("Gave up waiting for ") + what);
        return false;
    }
    void fail(const std::string& what) {
        std::fprintf(stderr, "screens: %s\n", what.c_str());
        ok_ = false;
    }
    [[nodiscard]] std::filesystem::path in_folder(const char* name) const {
        return std::filesystem::path(folder_.path().toStdString()) / name;
    }

    std::filesystem::path out_;
    QTemporaryDir folder_;
    MainWindow window_;
    bool ok_ = true;
};

}  // namespace
}  // namespace haylane

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fputs("usage: screens FOLDER\n", stderr);
        return 2;
    }
    const QApplication application(argc, argv);
    const QTemporaryDir settings;
    QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, settings.path());
    haylane::use_warm_look();
    std::filesystem::create_directories(argv[1]);
    return haylane::Screens(argv[1]).take() ? 0 : 1;
}
