// The week's page over the sample ranch, by real mouse and key events: the plan it shows is the one
// that the command line makes of the same book, and the book keeps it.

#include "app/desktop/week/feeding_card.h"
#include "app/desktop/week/give_plan.h"
#include "app/session/plan_ranch.h"
#include "gis/book/plan_store.h"
#include "tests/desktop/window_test.h"

#include <fstream>

#include <QDateEdit>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>

namespace haylane {
namespace {

class WeekPageTest : public WindowTest {
  protected:
    void SetUp() override {
        WindowTest::SetUp();
        open_sample();
        ASSERT_TRUE(page().isVisible());
    }
    [[nodiscard]] WeekPage& page() const { return *window_.week_page(); }
    [[nodiscard]] QPushButton& button(const QString& text) const {
        return WindowTest::button(page(), text);
    }
    // One day: enough to see, quick to plan.
    void ask_for_one_day() const {
        page().findChild<QSpinBox*>()->setValue(1);
        page().findChild<QDateEdit*>()->setDate({2027, 1, 11});
    }
    [[nodiscard]] bool wait_for_plan() const {
        return QTest::qWaitFor([this] { return !page().busy(); }, kPatience_ms);
    }

    // Every card says where its feeding goes, why, and what to beware of.
    void expect_cards() const {
        const Ranch& ranch = page().shown()->open.checked.ranch;
        const auto cards = page().findChildren<FeedingCard*>();
        const auto& feedings = page().shown()->kept.result.plan.feedings;
        ASSERT_EQ(cards.size(), feedings.size());
        for (std::size_t i = 0; i < feedings.size(); ++i) {
            const QString text = cards.at(static_cast<int>(i))->findChild<QLabel*>()->text();
            for (const std::string& said :
                 {ranch[feedings[i].herd].name, ranch[feedings[i].pasture].name,
                  ranch[feedings[i].rig].name, feedings[i].start.from, feedings[i].why}) {
                EXPECT_TRUE(text.contains(QString::fromStdString(said).toHtmlEscaped()))
                    << said << " is not in " << text.toStdString();
            }
            for (const Caution& caution : feedings[i].cautions) {
                EXPECT_TRUE(text.contains(QString::fromStdString(caution.text).toHtmlEscaped()));
            }
        }
    }
    void expect_sheet() const {
        const auto file = in_folder("sheet.pdf");
        const auto written = write_sheet(*page().shown(), file);
        ASSERT_TRUE(written) << written.error().what;
        std::string head(5, '\0');
        std::ifstream(file, std::ios::binary).read(head.data(), 5);
        EXPECT_EQ(head, "%PDF-");  // ISO 32000, 7.5.2
    }
};

TEST_F(WeekPageTest, PlansAtTheButtonAndTheBookKeepsThePlan) {
    EXPECT_EQ(page().shown(), nullptr);
    EXPECT_TRUE(page().findChildren<FeedingCard*>().isEmpty());
    EXPECT_FALSE(button("Sheet and lines").isEnabled());
    ask_for_one_day();
    const QImage before = page().map()->grab().toImage();
    button("Plan these days").setFocus();
    QTest::keyClick(&button("Plan these days"), Qt::Key_Space);
    EXPECT_TRUE(page().busy());
    EXPECT_FALSE(button("Plan these days").isEnabled());
    EXPECT_TRUE(button("Stop").isVisible());
    ASSERT_TRUE(wait_for_plan());
    ASSERT_FALSE(window_.shows_error());
    ASSERT_NE(page().shown(), nullptr);
    const Plan& plan = page().shown()->kept.result.plan;
    EXPECT_EQ(page().findChildren<FeedingCard*>().size(), plan.feedings.size());
    EXPECT_NE(page().map()->grab().toImage(), before);
    const auto kept = stored_plans(in_folder("brindle.gpkg"));
    ASSERT_TRUE(kept);
    ASSERT_EQ(kept->size(), 1U);
    expect_cards();
    expect_sheet();

    // The same from the session, as the command line asks it.
    auto open = open_ranch(in_folder("brindle.gpkg"));
    ASSERT_TRUE(open);
    const auto again = plan_ranch(*open, {.from = *parse_day("2027-01-11"), .days = 1});
    ASSERT_TRUE(again);
    ASSERT_EQ(again->plan.feedings.size(), plan.feedings.size());
    EXPECT_EQ(again->plan.optimality.objective, plan.optimality.objective);
    for (std::size_t i = 0; i < plan.feedings.size(); ++i) {
        ASSERT_EQ(again->plan.feedings[i].lines.size(), plan.feedings[i].lines.size());
        for (std::size_t k = 0; k < plan.feedings[i].lines.size(); ++k) {
            EXPECT_EQ(again->plan.feedings[i].lines[k].path, plan.feedings[i].lines[k].path);
        }
    }
}

TEST_F(WeekPageTest, StoppedPlanningLeavesThePageReadyAndTheBookAsItWas) {
    page().findChild<QSpinBox*>()->setValue(60);
    QTest::mouseClick(&button("Plan these days"), Qt::LeftButton);
    QTest::mouseClick(&button("Stop"), Qt::LeftButton);
    ASSERT_TRUE(wait_for_plan());
    EXPECT_EQ(page().shown(), nullptr);
    EXPECT_FALSE(window_.shows_error());
    EXPECT_TRUE(button("Plan these days").isEnabled());
    const auto kept = stored_plans(in_folder("brindle.gpkg"));
    ASSERT_TRUE(kept);
    EXPECT_TRUE(kept->empty());
}

TEST_F(WeekPageTest, ClosesCleanlyWhilePlanning) {
    page().findChild<QSpinBox*>()->setValue(60);
    page().plan();
    EXPECT_TRUE(page().busy());
}  // the window goes while the plan is being made

}  // namespace
}  // namespace haylane
