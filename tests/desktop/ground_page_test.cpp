// The ground's page over the sample ranch, by real mouse and key events: what it shows is what the
// session's account of the same season says, and the model keeps Qt's rules.

#include "app/desktop/ground/ground_page.h"

#include "app/desktop/ground/ground_picture_of.h"
#include "app/session/ground_ranch.h"
#include "tests/desktop/window_test.h"

#include <algorithm>
#include <cmath>
#include <fstream>

#include <QAbstractItemModelTester>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QSlider>
#include <QTableView>

namespace haylane {
namespace {

class GroundPageTest : public WindowTest {
  protected:
    void SetUp() override {
        WindowTest::SetUp();
        open_ranch_to_look_at();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));  // shortcuts want it
        QTest::keyClick(&window_, Qt::Key_2, Qt::ControlModifier);
        ASSERT_TRUE(page().isVisible());
    }
    virtual void open_ranch_to_look_at() { open_sample(); }
    [[nodiscard]] GroundPage& page() const { return *window_.ground_page(); }
    template <class Widget>
    [[nodiscard]] Widget& named(const QString& name) const {
        return WindowTest::named<Widget>(page(), name);
    }
    [[nodiscard]] QPushButton& button(const QString& text) const {
        return WindowTest::button(page(), text);
    }
    [[nodiscard]] bool wait_for_account() const {
        return QTest::qWaitFor([this] { return !page().busy(); }, kPatience_ms);
    }
    [[nodiscard]] const Ranch& ranch() const { return window_.ranch()->open.checked.ranch; }
    [[nodiscard]] QTableView& table() const { return named<QTableView>("Pastures"); }
    [[nodiscard]] QString cell(int row, int column) const {
        return table().model()->index(row, column).data().toString();
    }
    [[nodiscard]] int row_of(const QString& pasture) const {
        for (int row = 0; row < table().model()->rowCount(); ++row) {
            if (cell(row, 0) == pasture) return row;
        }
        ADD_FAILURE() << "no row " << pasture.toStdString();
        return 0;
    }
    void choose(QComboBox& box, const QString& text) const {
        box.setFocus();
        QTest::keyClicks(&box, text);
        EXPECT_EQ(box.currentText(), text);
    }

    // Every row says what the session's account says.
    void expect_figures(const GroundAccount& account) const {
        const GroundWords words(ranch().settings, false);
        const SeasonMeasure measure = page().shown().measure;
        ASSERT_EQ(table().model()->rowCount(), static_cast<int>(account.pastures.size()));
        for (const PastureAccount& pasture : account.pastures) {
            const int row = row_of(QString::fromStdString(ranch()[pasture.pasture].name));
            const Provenance& from = pasture.ledger.provenance;
            const LoadFigures& load = pasture[measure];
            EXPECT_EQ(cell(row, 1), words.count(pasture.ledger.bales, from));
            EXPECT_EQ(cell(row, 2), words.rate(load.mean_per_m2, measure, from));
            EXPECT_EQ(cell(row, 4), words.rate(load.high_tenth_per_m2, measure, from));
        }
    }
    // The last day's picture is the season's: the steps add up to what the season's own map has.
    void expect_pictures(const GroundReport& report) const {
        const GroundSeason& season = *page().shown().season;
        const auto measure = static_cast<std::size_t>(page().shown().measure);
        for (std::size_t p = 0; p < report.pictures.size(); ++p) {
            const auto sum = [](const Raster<float>& values) {
                double total = 0.0;
                for (const float value : values.values) {
                    if (std::isfinite(value)) total += static_cast<double>(value);
                }
                return total * values.grid.cell_area_m2();
            };
            const Raster<float>& shown = (*season.loads[p].back())[measure];
            // Cells at the fence are whole in the one and halved in the other.
            const double want = sum(report.pictures[p].shown_per_m2);
            EXPECT_NEAR(sum(shown), want, 0.03 * want + 1e-9);
            const auto heaviest = [](const Raster<float>& values) {
                double most = 0.0;
                for (const float value : values.values)
                    if (std::isfinite(value)) most = std::max(most, static_cast<double>(value));
                return most;
            };
            const double most = heaviest(report.pictures[p].shown_per_m2);
            EXPECT_NEAR(heaviest(shown), most, 0.1 * most + 1e-12);
        }
    }
    void expect_slider_grows() const {
        auto& slider = named<QSlider>("Day of the season");
        EXPECT_EQ(slider.value(), slider.maximum());
        ASSERT_GT(slider.maximum(), slider.minimum());
        const GroundSeason& season = *page().shown().season;
        const auto bales = [&](std::size_t day) {
            double total = 0.0;
            for (const auto& pasture : season.loads) {
                for (const float value :
                     (*pasture[day])[static_cast<std::size_t>(SeasonMeasure::bales)].values)
                    if (std::isfinite(value)) total += static_cast<double>(value);
            }
            return total;
        };
        for (std::size_t day = 1; day < season.days.size(); ++day)
            EXPECT_GE(bales(day), bales(day - 1));
        EXPECT_GT(bales(season.days.size() - 1), bales(0));
        slider.setFocus();
        const QImage late = page().map()->grab().toImage();
        QTest::keyClick(&slider, Qt::Key_Home);
        EXPECT_EQ(slider.value(), slider.minimum());
        EXPECT_NE(page().map()->grab().toImage(), late);
        QTest::keyClick(&slider, Qt::Key_End);
        EXPECT_EQ(page().map()->grab().toImage(), late);
    }
    void expect_row_moves_map() const {
        const Pasture& pasture = ranch().pastures.front();
        const int row = row_of(QString::fromStdString(pasture.name));
        const double before = page().map()->px_per_m();
        const QRect at = table().visualRect(table().model()->index(row, 0));
        QTest::mouseClick(table().viewport(), Qt::LeftButton, {}, at.center());
        EXPECT_GT(page().map()->px_per_m(), before);
        const Point middle = page().map()->world_at(QRectF(page().map()->rect()).center());
        const Box box = box_of(pasture.shape);
        EXPECT_NEAR(middle.x, 0.5 * (box.min_x + box.max_x), 1.0);
        EXPECT_NEAR(middle.y, 0.5 * (box.min_y + box.max_y), 1.0);
        page().map()->fit();
    }
    void expect_numbers_sorted() const {
        QHeaderView& head = *table().horizontalHeader();
        const QPoint at(head.sectionViewportPosition(1) + head.sectionSize(1) / 2,
                        head.height() / 2);
        for (int click = 0; click < 2; ++click) {
            QTest::mouseClick(head.viewport(), Qt::LeftButton, {}, at);
            const bool rising = head.sortIndicatorOrder() == Qt::AscendingOrder;
            for (int row = 1; row < table().model()->rowCount(); ++row) {
                const auto bales = [&](int of) {
                    return table().model()->index(of, 1).data(Qt::UserRole).toDouble();
                };
                if (rising) {
                    EXPECT_LE(bales(row - 1), bales(row));
                } else {
                    EXPECT_GE(bales(row - 1), bales(row));
                }
            }
        }
    }
    void expect_figure_under_pointer() const {
        const GroundSeason& season = *page().shown().season;
        const Pasture& pasture = ranch().pastures.front();
        const QPoint at = page().map()->place_of(label_point(pasture.shape)).toPoint();
        QTest::mouseMove(page().map(), at);
        const QString want =
            figure_at(season, page().shown().measure, season.account.up_to,
                      page().map()->world_at(QPointF(at)), ranch(), {ranch().settings, false});
        EXPECT_TRUE(want.startsWith(QString::fromStdString(pasture.name) + ": "));
        EXPECT_TRUE(want.contains(" lb/ac of P2O5 here")) << want.toStdString();
        EXPECT_EQ(named<QLabel>("Under the pointer").text(), want);
    }
};

// One account, looked at from all sides: it takes a while with checks on.
TEST_F(GroundPageTest, ShowsWhatTheSessionsAccountSays) {
    ASSERT_TRUE(page().busy());
    EXPECT_TRUE(named<QProgressBar>("How far the work is").isVisible());
    ASSERT_TRUE(wait_for_account());
    ASSERT_FALSE(window_.shows_error());
    ASSERT_NE(page().shown().season, nullptr);
    const auto report = account_for_ground(window_.ranch()->open,
                                           {.season = "2026-27", .uncertainty = {.draws = 0}},
                                           in_folder("ground"), false);
    ASSERT_TRUE(report) << report.error().what;
    EXPECT_EQ(page().shown().season->account.span.name, "2026-27");
    expect_figures(report->account);
    expect_pictures(*report);
    expect_slider_grows();
    expect_row_moves_map();
    expect_numbers_sorted();
    expect_figure_under_pointer();

    auto& measure = named<QComboBox>("Show");
    EXPECT_EQ(measure.currentText(), "P2O5");
    choose(measure, "Bales");
    EXPECT_FALSE(page().busy()) << "the account has every measure";
    expect_figures(report->account);
}

// A pasture fed in two winters: an account that is quickly made.
class SmallGroundPageTest : public GroundPageTest {
  protected:
    void open_ranch_to_look_at() override {
        std::string fed = "date,herd,pasture,lot,bales\n";
        for (const char* day :
             {"2025-12-05", "2026-01-10", "2026-02-14", "2026-12-04", "2026-12-18", "2027-01-08"})
            fed += std::string(day) + ",Cows,Home,Grass,5\n";
        put("ranch/feedings.csv", fed);
        open_small();
    }
};

TEST_F(SmallGroundPageTest, StopsAndStartsAgainAndKeepsQtsRules) {
    const QAbstractItemModelTester tester(page().findChild<PastureTableModel*>(),
                                          QAbstractItemModelTester::FailureReportingMode::Fatal);
    ASSERT_TRUE(page().busy());
    QTest::mouseClick(&button("Stop"), Qt::LeftButton);
    ASSERT_TRUE(wait_for_account());
    EXPECT_EQ(page().shown().season, nullptr);
    EXPECT_FALSE(window_.shows_error());
    EXPECT_FALSE(button("Report…").isEnabled());
    button("Work it out").setFocus();
    QTest::keyClick(&button("Work it out"), Qt::Key_Space);
    ASSERT_TRUE(page().busy());
    ASSERT_TRUE(wait_for_account());
    ASSERT_NE(page().shown().season, nullptr);
    EXPECT_EQ(table().model()->rowCount(), static_cast<int>(ranch().pastures.size()));

    // A second season beside the first, on a map that moves with it.
    choose(named<QComboBox>("Beside"), "2025-26");
    ASSERT_TRUE(wait_for_account());
    ASSERT_NE(page().shown().beside, nullptr);
    EXPECT_TRUE(page().map_beside()->isVisible());
    EXPECT_EQ(table().model()->columnCount(), static_cast<int>(PastureTableModel::columns));
    page().map()->setFocus();
    QTest::keyClick(page().map(), Qt::Key_Plus);
    QTest::keyClick(page().map(), Qt::Key_Left);
    EXPECT_EQ(page().map_beside()->px_per_m(), page().map()->px_per_m());
    window_.close();
}

TEST_F(SmallGroundPageTest, WritesTheReportInTheBackground) {
    ASSERT_TRUE(wait_for_account());
    const auto file = in_folder("ground-report.pdf");
    page().report_row()->write_to(file);
    EXPECT_TRUE(page().busy());
    ASSERT_TRUE(QTest::qWaitFor([this] { return !page().busy(); }, kPatience_ms));
    EXPECT_FALSE(window_.shows_error());
    std::string head(5, '\0');
    std::ifstream(file, std::ios::binary).read(head.data(), 5);
    EXPECT_EQ(head, "%PDF-");  // ISO 32000, 7.5.2
}

TEST_F(SmallGroundPageTest, ClosesCleanlyDuringTheAccount) {
    EXPECT_TRUE(page().busy());
}  // the window goes while the account is being made

}  // namespace
}  // namespace haylane
