// The haul report as it stands on paper, on an invented ranch with two yards.
#include "app/papers/haul_report.h"

#include "app/papers/gui.h"
#include "core/ranch/measured_figures.h"
#include "tests/papers/page_checks.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

Ranch priced_ranch() {
    Ranch ranch = testing::small_ranch().ranch;
    ranch.yards.push_back({.name = "Far yard", .at = {200, -400}});
    HayLot far = ranch.lots[1];
    far.name = "Far meadow";
    far.yard = YardId::at(1);
    far.price_per_kg = 0.20;
    ranch.lots.push_back(far);
    ranch.settings.fuel_price_per_m3 = 1000.0;
    ranch.settings.labor_per_s = 22.0 / 3600.0;
    ranch.rigs[0].own.trials = 3;
    ranch.rigs[0].own.feed_s_per_bale = 200.0;
    return ranch;
}

struct Report {
    Gui gui;
    Ranch ranch = priced_ranch();
    HaulAccount account;
    RenderedSheet sheet;

    explicit Report(bool metric = false) {
        const Terrain terrain;
        HaulRequest request{.day = haul_day(ranch, testing::day("2026-01-05"))};
        for (std::size_t h = 0; h < ranch.herds.size(); ++h)
            request.pastures.push_back(ranch.herds[h].pastures.front());
        const auto ways = HaulWays::find(ranch, terrain, request);
        EXPECT_TRUE(ways.has_value());
        account = haul_account(*ways);
        const std::vector<HaulWhatIf> what_ifs = {{"days_at_once=2", account.day, true}};
        const std::vector<MachineOffer> offers;
        const std::vector<Assumption> coefficients = list_measured(ranch);
        auto rendered = render_haul_report(
            {account, ranch, what_ifs, offers, nullptr, "No hay fields.", coefficients, metric});
        EXPECT_TRUE(rendered.has_value());
        if (rendered) sheet = std::move(*rendered);
    }
    [[nodiscard]] QString text() const { return testing::all_text(sheet.record); }
};

TEST(HaulReport, LeadsWithMoneyAHeadAndSaysWhatWasMeasured) {
    const QString text = Report().text();
    EXPECT_TRUE(text.contains("a head and day:")) << text.toStdString();
    EXPECT_TRUE(text.contains("Figures measured on the ranch are used for: Peel."));
    EXPECT_TRUE(text.contains("Peel: laying a bale 3.33 min"));
    EXPECT_TRUE(text.contains("Cost a ton against distance"));
    EXPECT_TRUE(text.contains("2 days' feed at a time"));
    EXPECT_TRUE(text.contains("Not for nursing cows or first-calf heifers"));
    EXPECT_TRUE(text.contains("No hay fields."));
    EXPECT_TRUE(text.contains("PTO off, engine off, key out"));
}

// What the terminal warns of stands on paper too: herds left out of a row, ways that nobody
// checked.
TEST(HaulReport, SaysWhatWasNotReachedAndNotChecked) {
    Report report;
    report.account.rigs[0].day.low.herds_not_reached = 1;
    for (HaulTrip& trip : report.account.trips) trip.way_checked = false;
    const auto sheet = render_haul_report(
        {report.account, report.ranch, {}, {}, nullptr, "No hay fields.", {}, false});
    ASSERT_TRUE(sheet);
    const QString text = testing::all_text(sheet->record);
    EXPECT_TRUE(text.contains("Peel (1 herd not reached)")) << text.toStdString();
    EXPECT_TRUE(text.contains("(way not checked)")) << text.toStdString();
    EXPECT_FALSE(report.text().contains("not checked"));
}

// Dearer by d a kg and a mile costing m a kg: d / m miles farther.
TEST(HaulReport, SaysHowMuchFartherCheaperHayMayBeHauled) {
    const Report report;
    ASSERT_EQ(report.account.yard_break_evens.size(), 1U);
    const YardBreakEven& even = report.account.yard_break_evens[0];
    EXPECT_EQ(report.ranch[even.cheaper].name, "Home yard");
    const auto home = mean_hay(report.ranch, YardId::at(0));
    const double less = 0.20 - *home->price_per_kg;
    EXPECT_NEAR(even.price_less_per_kg, less, 1e-12);
    EXPECT_NEAR(even.farther_m, less / *report.account.cost_per_kg_mile * 1609.344, 1e-6);
    EXPECT_TRUE(report.text().contains("Hay at Home yard costs"));
}

TEST(HaulReport, LeavesNothingOffThePageAndNothingOnTop) {
    const Report report(true);
    testing::expect_all_on_page(report.sheet.record);
    EXPECT_TRUE(report.text().contains("km one way"));
}

}  // namespace
}  // namespace haylane
