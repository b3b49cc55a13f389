// The week sheet as a reader gets it: text through poppler's pdftotext, and the layout's own record
// of where every line of text stands. What must be on the front page is the papers' contract
// (docs/formats.md, week-sheet.pdf).

#include "app/papers/week_sheet.h"

#include "app/papers/gui.h"
#include "app/papers/row_text.h"
#include "app/papers/safety.h"
#include "app/papers/words.h"
#include "tests/papers/page_checks.h"
#include "tests/support/sample_plan.h"

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>

#include <QRegularExpression>
#include <gtest/gtest.h>

namespace haylane {
namespace {

using support::sample_plan;
using support::SamplePlan;

const Gui& gui() {
    static const Gui made;
    return made;
}

RenderedSheet render(const SamplePlan& sample, const WeekSheetOptions& options = {}) {
    static_cast<void>(gui());
    auto rendered = render_week_sheet(sample.result, sample.ranch, options);
    EXPECT_TRUE(rendered) << (rendered ? "" : rendered.error().what);
    return rendered ? *rendered : RenderedSheet{};
}

// One line of text; words broken at their hyphen are joined again.
QString squeezed(const QString& text) { return text.simplified().replace("- ", "-"); }

// Text of the front page in the order it was set.
QString front_text(const SheetRecord& record) {
    QString text;
    for (const PlacedText& line : record.texts) {
        if (line.page == 1) text += line.text + " ";
    }
    return squeezed(text);
}

void expect_tidy_front(const SheetRecord& record) {
    std::vector<PlacedText> front;
    for (const PlacedText& line : record.texts) {
        if (line.page == 1) front.push_back(line);
    }
    ASSERT_GT(front.size(), 20U);
    const QRectF page(QPointF(0.0, 0.0), record.page_pt);
    for (std::size_t i = 0; i < front.size(); ++i) {
        EXPECT_GE(front[i].size_pt, 12.0) << front[i].text.toStdString();
        EXPECT_TRUE(page.adjusted(18.0, 18.0, -18.0, -18.0).contains(front[i].box))
            << front[i].text.toStdString();
        for (std::size_t k = 0; k < i; ++k) {
            const QRectF shared = front[i].box.intersected(front[k].box);
            EXPECT_FALSE(shared.width() > 0.01 && shared.height() > 0.01)
                << front[i].text.toStdString() << " | " << front[k].text.toStdString();
        }
    }
}

void expect_row_on_front(const QString& front, const SamplePlan& sample,
                         const PlannedFeeding& feeding, bool metric) {
    const QString lay = lay_text(feeding, metric);
    const QString shared = lay_text(feeding, metric, {.landmark = false});
    const QString terse = lay_text(feeding, metric, {.terse = true});
    const QString least = lay_text(feeding, metric, {.landmark = false, .terse = true});
    EXPECT_TRUE(front.contains(lay) || front.contains(shared) || front.contains(terse) ||
                front.contains(least))
        << lay.toStdString();
    EXPECT_TRUE(front.contains(landmark_of(feeding)));
    const QString weekday = QString::fromStdString(words::weekday(feeding.date));
    EXPECT_TRUE(front.contains(QString::fromStdString(words::weekday_and_day(feeding.date))) ||
                front.contains(weekday + ":") || front.contains(weekday + ", for"));
    // Where a herd has one lot all week, the heading names it and the row the count.
    EXPECT_TRUE(front.contains(bales_text(feeding.bales, sample.ranch)) ||
                (feeding.bales.size() == 1 &&
                 front.contains(QStringLiteral(": %1 bales. ").arg(feeding.bales[0].count)) &&
                 front.contains(QString::fromStdString(sample.ranch[feeding.bales[0].lot].name) +
                                " from ")));
    EXPECT_TRUE(front.contains(QString::fromStdString(words::way_in(feeding, sample.ranch))));
}

TEST(WeekSheet, FrontPageHasEveryHerdAndDayAtTwelvePoints) {
    const SamplePlan sample = sample_plan();
    const RenderedSheet sheet = render(sample);
    expect_tidy_front(sheet.record);
    testing::expect_all_on_page(sheet.record);
    const QString front = front_text(sheet.record);
    ASSERT_EQ(sample.result.plan.feedings.size(), 21U);
    for (const PlannedFeeding& feeding : sample.result.plan.feedings) {
        expect_row_on_front(front, sample, feeding, false);
    }
    EXPECT_TRUE(front.startsWith(QStringLiteral(
        "Hay lasts to 9–21 April at this rate; turn-out 15 May; short 150–220 bales")));
    EXPECT_TRUE(front.contains(QString::fromUtf8(kSafetyText.data(), kSafetyText.size())));
    EXPECT_EQ(front.count(QStringLiteral("PTO off")), 1);
    EXPECT_TRUE(front.contains("slope 8 %"));
    EXPECT_TRUE(front.contains("by water"));
    EXPECT_FALSE(front.contains("page 2"));
}

TEST(WeekSheet, A4AndMetricAreAsTidy) {
    const SamplePlan sample = sample_plan();
    const RenderedSheet sheet = render(sample, {.metric = true, .letter = false});
    EXPECT_NEAR(sheet.record.page_pt.width(), 595.0, 1.0);  // ISO 216: 210 mm x 297 mm
    EXPECT_NEAR(sheet.record.page_pt.height(), 842.0, 1.0);
    expect_tidy_front(sheet.record);
    const QString front = front_text(sheet.record);
    for (const PlannedFeeding& feeding : sample.result.plan.feedings) {
        expect_row_on_front(front, sample, feeding, true);
    }
    EXPECT_TRUE(front.contains(QRegularExpression("gate \\d+ m S")));
    EXPECT_FALSE(front.contains(QRegularExpression("gate [\\d,]+ ft")));
}

// The third herd is fed in rings: two bales a row, 60 m from each other.
SamplePlan with_rings() {
    SamplePlan sample = sample_plan();
    for (PlannedFeeding& feeding : sample.result.plan.feedings) {
        if (feeding.herd != HerdId::at(2)) continue;
        feeding.in_rings = true;
        for (PlannedLine& row : feeding.lines) {
            row.bales = 2;
            row.places = {row.path.front(),
                          lerp(row.path.front(), row.path.back(), 60.0 / length_m(row.path))};
        }
        for (PlannedLoad& load : feeding.loads) load.line_ids.clear();
        feeding.cautions.push_back({"ring_ground", "Rings make heavy ground.", "move the rings"});
    }
    return sample;
}

TEST(WeekSheet, RingsAreSetAndNoLineIsLaid) {
    const SamplePlan sample = with_rings();
    const RenderedSheet sheet = render(sample);
    expect_tidy_front(sheet.record);
    testing::expect_all_on_page(sheet.record);
    const QString front = front_text(sheet.record);
    for (const PlannedFeeding& feeding : sample.result.plan.feedings) {
        expect_row_on_front(front, sample, feeding, false);
        const QString text = lay_text(feeding, false);
        EXPECT_EQ(text.contains("lay "), !feeding.in_rings) << text.toStdString();
        if (!feeding.in_rings) continue;
        // 60 m are 197 ft.
        EXPECT_TRUE(text.contains("set 2 bales in the rings, 200 ft apart going "))
            << text.toStdString();
    }
    EXPECT_TRUE(front.contains("move the rings"));
}

TEST(WeekSheet, SmallPlanStillFillsTheFront) {
    const SamplePlan sample = sample_plan({.herds = 1, .days = 1});
    const RenderedSheet sheet = render(sample);
    expect_tidy_front(sheet.record);
    testing::expect_all_on_page(sheet.record);
}

TEST(WeekSheet, RowsThatDoNotFitGoWholeToThePageBehind) {
    const SamplePlan sample = sample_plan({.herds = 6, .days = 7, .long_names = true});
    const RenderedSheet sheet = render(sample);
    expect_tidy_front(sheet.record);
    testing::expect_all_on_page(sheet.record);
    const QString front = front_text(sheet.record);
    EXPECT_TRUE(front.contains("are on page 2"));
    EXPECT_TRUE(front.contains(QString::fromUtf8(kSafetyText.data(), kSafetyText.size())));
    QString all;
    for (const PlacedText& line : sheet.record.texts) all += line.text + " ";
    all = squeezed(all);
    for (const PlannedFeeding& feeding : sample.result.plan.feedings) {
        EXPECT_TRUE(all.contains(squeezed(lay_text(feeding, false))));
        for (const Caution& caution : feeding.cautions) {
            EXPECT_TRUE(all.contains(QString::fromStdString(caution.text)));
        }
    }
}

TEST(WeekSheet, NothingToFeedStillGivesASheet) {
    SamplePlan sample = sample_plan({.herds = 0, .days = 7});
    sample.result.plan.hay_lasts = {};
    sample.ranch.terrain.reset();
    const RenderedSheet sheet = render(sample);
    EXPECT_GE(sheet.record.pages, 2);
    EXPECT_TRUE(front_text(sheet.record).startsWith("Hay lasts more than a year"));
    testing::expect_all_on_page(sheet.record);
}

std::string output_of(const std::string& command) {
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::string text;
    std::array<char, 4096> part{};
    while (pipe && std::fgets(part.data(), static_cast<int>(part.size()), pipe.get()) != nullptr) {
        text += part.data();
    }
    return text;
}

class WeekSheetFile : public ::testing::Test {
  protected:
    void SetUp() override {
        if (std::system("pdftotext -v >/dev/null 2>&1") != 0) GTEST_SKIP() << "no pdftotext";
        folder_ = std::filesystem::temp_directory_path() /
                  ("haylane-week-sheet-" +
                   std::to_string(::testing::UnitTest::GetInstance()->random_seed()) + "-" +
                   ::testing::UnitTest::GetInstance()->current_test_info()->name());
        std::filesystem::create_directories(folder_);
        path_ = folder_ / "week-sheet.pdf";
        static_cast<void>(gui());
        const auto written = write_week_sheet(path_, sample_.result, sample_.ranch, {});
        ASSERT_TRUE(written) << written.error().what;
    }
    void TearDown() override {
        if (!folder_.empty()) std::filesystem::remove_all(folder_);
    }
    [[nodiscard]] QString text(const std::string& options) const {
        return squeezed(QString::fromStdString(
            output_of("pdftotext " + options + " '" + path_.string() + "' -")));
    }

    SamplePlan sample_ = sample_plan();
    std::filesystem::path folder_;
    std::filesystem::path path_;
};

TEST_F(WeekSheetFile, ReadsBackWithEveryRow) {
    const QString front = text("-f 1 -l 1 -raw");
    for (const PlannedFeeding& feeding : sample_.result.plan.feedings) {
        expect_row_on_front(front, sample_, feeding, false);
    }
    for (const char* phrase :
         {"PTO off, engine off, key out", "shields on", "discharge side", "bales low",
          "nobody under a raised bale", "power lines", "uphill of it", "Seat belt", "glare ice",
          "pond or creek ice", "old windrows", "counted home", "extinguisher", "slow-moving sign",
          "Check open water", "return time", "you decide"}) {
        EXPECT_TRUE(front.contains(phrase)) << phrase;
    }
}

TEST_F(WeekSheetFile, UsesNoWordsThatAreNotTheRanchersOwn) {
    const QString all = text("");
    ASSERT_GT(all.size(), 3000);
    for (const char* word : {"deposit", "CV", "CU", "low-quarter", "residual", "objective", "bound",
                             "gap", "adjoint", "candidate", "candidates"}) {
        const QRegularExpression whole("\\b" + QRegularExpression::escape(word) + "\\b",
                                       QRegularExpression::CaseInsensitiveOption);
        EXPECT_FALSE(all.contains(whole)) << word;
    }
}

TEST_F(WeekSheetFile, HasCardsSourcesAndPageNumbers) {
    const QString all = text("-raw");
    const QString info = QString::fromStdString(output_of("pdfinfo '" + path_.string() + "'"));
    const auto pages = QRegularExpression("Pages:\\s+(\\d+)").match(info);
    ASSERT_TRUE(pages.hasMatch());
    const int count = pages.captured(1).toInt();
    EXPECT_GE(count, 4);
    EXPECT_LE(count, 14);
    for (int page = 1; page <= count; ++page) {
        EXPECT_TRUE(all.contains(QStringLiteral("Page %1 of %2").arg(page).arg(count))) << page;
    }
    EXPECT_EQ(all.count("This ground so far 2 bales/ac; heaviest 38."), 21);
    EXPECT_EQ(all.count("Why here:"), 21);
    EXPECT_TRUE(all.contains("40 CFR 412.4(c)(5)"));
    EXPECT_TRUE(all.contains("no weather table"));
    EXPECT_TRUE(all.contains("Hay left after this plan"));
    EXPECT_TRUE(all.contains("$14.20"));
}

TEST_F(WeekSheetFile, SaysWhereItCannotWrite) {
    const auto written =
        write_week_sheet(folder_ / "no" / "such" / "sheet.pdf", sample_.result, sample_.ranch, {});
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().code, "file_unwritable");
    EXPECT_FALSE(written.error().remedy.empty());
}

}  // namespace
}  // namespace haylane
