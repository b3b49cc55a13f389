// The report as it stands on paper. Check values of a weighed and timed feeding of the same three
// bales by two rigs: 1.17 gal and 19 min 52 s against 0.54 gal and 14 min 48 s, which is 54 % less
// fuel, 26 % less time, 0.39 against 0.18 gal a bale (common practice, no source).
#include "app/papers/trial_report.h"

#include "app/papers/gui.h"
#include "core/base/units.h"
#include "tests/papers/page_checks.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

TrialRun run(const std::string& rig, double gallons, double seconds, const std::string& pair) {
    TrialRun one;
    one.rig = rig;
    one.lot = "grass";
    one.pair = pair;
    one.bales = 3.0;
    one.feed_s = seconds;
    one.fuel_l = gallons * units::kLitersPerGallon;
    return one;
}

struct Report {
    Gui gui;
    std::vector<TrialRun> runs;
    TrialComparison trials;
    RenderedSheet sheet;

    explicit Report(std::vector<TrialRun> fed, bool metric = false) : runs(std::move(fed)) {
        trials = compare_trials(runs);
        auto rendered = render_trial_report({trials, runs, {.metric = metric}, "Test ranch"});
        EXPECT_TRUE(rendered.has_value());
        if (rendered) sheet = std::move(*rendered);
    }
    [[nodiscard]] QString text() const { return testing::all_text(sheet.record); }
};

std::vector<TrialRun> one_feeding_each() {
    return {run("Shredder", 1.17, 1192.0, "1"), run("Unroller", 0.54, 888.0, "1")};
}

TEST(TrialReport, SaysHowMuchLessAndThatOnePairIsNotEnough) {
    const QString text = Report(one_feeding_each()).text();
    EXPECT_TRUE(
        text.contains("Unroller: 54 % less fuel a bale than Shredder (0.18 against 0.39 "
                      "gal). One pair only, so no interval can be given."))
        << text.toStdString();
    EXPECT_TRUE(text.contains("Unroller: 26 % less time a bale than Shredder (4.9 against 6.6"))
        << text.toStdString();
    EXPECT_TRUE(text.contains("Fewer than 3 feedings"));
    EXPECT_TRUE(text.contains("PTO off, engine off, key out"));
    EXPECT_TRUE(text.contains("Test ranch"));
}

TEST(TrialReport, LeavesNothingOffThePageAndNothingOnTop) {
    std::vector<TrialRun> many;
    for (int i = 0; i < 40; ++i) {
        many.push_back(run("A rig with quite a long name of its own", 1.0 + 0.01 * i, 900.0,
                           std::to_string(i)));
        many.push_back(run("B", 0.5 + 0.01 * i, 700.0 + i, std::to_string(i)));
    }
    const Report report(many);
    EXPECT_GE(report.sheet.record.pages, 3);
    testing::expect_all_on_page(report.sheet.record);
    EXPECT_TRUE(
        report.text().contains(QStringLiteral("Page %1 of %1").arg(report.sheet.record.pages)));
}

TEST(TrialReport, SpeaksMetric) {
    const QString text = Report(one_feeding_each(), true).text();
    EXPECT_TRUE(text.contains("fuel a bale, L"));
    EXPECT_FALSE(text.contains(" gal)"));
}

}  // namespace
}  // namespace haylane
