// The report as it stands on paper: everything on the page, nothing on top of anything, words that
// are explained, classes where records are unsure.
#include "app/papers/ground_report.h"

#include "app/papers/gui.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

Ranch ranch_with_two_winters() {
    Ranch ranch = testing::small_ranch().ranch;
    ranch.settings.cell_m = 10.0;  // for speed
    ranch.pastures[0].limit.p2o5_kg_per_m2 = 0.002;
    ranch.settings.price_n_per_kg = 1.4;
    ranch.off_limits.push_back({.name = "creek",
                                .kind = OffLimitsKind::water,
                                .setback_m = 30.0,
                                .lines = {{{50, 0}, {50, 800}}}});
    for (int i = 0; i < 6; ++i) {
        FeedingRecord later = ranch.feedings[static_cast<std::size_t>(i)];
        later.from = later.to = later.from + std::chrono::days{400};
        later.source = Source::recalled;
        later.pasture = PastureId{i % 2};
        later.shape = std::monostate{};
        ranch.feedings.push_back(later);
    }
    ranch.soil.push_back({.name = "core",
                          .date = testing::day("2026-05-01"),
                          .p_ppm = 30.0,
                          .k_ppm = 200.0,
                          .method = "Olsen",
                          .where_taken = Point{250, 60}});
    return ranch;
}

GroundPicture picture_of(const PastureAccount& account, const PastureMaps& maps) {
    GroundPicture picture{account.pasture, Raster<float>(maps.ground.mask.grid), {}, {}};
    for (std::size_t c = 0; c < maps.shown_seen.values.size(); ++c)
        picture.shown_per_m2.values[c] = static_cast<float>(maps.shown_seen.values[c] / 100.0);
    picture.change_per_m2 = picture.shown_per_m2;
    if (account.bands) picture.chance_over = account.bands->chance_over;
    return picture;
}

struct Report {
    Ranch ranch = ranch_with_two_winters();
    std::vector<GroundPicture> pictures;
    GroundAccount account;
    RenderedSheet sheet;

    explicit Report(const char* season, bool metric = false) {
        AccountRequest request;
        request.span = *season_named(ranch, season);
        request.uncertainty.draws = 10;
        const AccountContext context(ranch, request);
        account = *ground_account(context, [&](const PastureAccount& one, const PastureMaps& maps) {
            pictures.push_back(picture_of(one, maps));
            return Result<void>{};
        });
        const Gui gui;
        sheet =
            *render_ground_report({account, ranch, pictures, metric, true, &account, "as it was"});
    }
    [[nodiscard]] QString text() const {
        QString all;
        for (const PlacedText& placed : sheet.record.texts) all += placed.text + " ";
        return all;
    }
};

TEST(GroundReport, KeepsEverythingOnThePageAndApart) {
    for (const bool metric : {false, true}) {
        const Report report("2025-26", metric);
        const auto& texts = report.sheet.record.texts;
        ASSERT_GT(texts.size(), 100U);
        const QRectF page(QPointF(0, 0), report.sheet.record.page_pt);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            EXPECT_TRUE(page.contains(texts[i].box)) << texts[i].text.toStdString();
            for (std::size_t j = i + 1; j < texts.size(); ++j) {
                if (texts[i].page != texts[j].page) continue;
                const QRectF both = texts[i]
                                        .box.adjusted(0.5, 1.2, -0.5, -1.2)
                                        .intersected(texts[j].box.adjusted(0.5, 1.2, -0.5, -1.2));
                EXPECT_TRUE(both.isEmpty())
                    << "page " << texts[i].page << ": " << texts[i].text.toStdString() << " / "
                    << texts[j].text.toStdString();
            }
        }
    }
}

TEST(GroundReport, AnswersExplainsAndDefers) {
    const Report report("2025-26");
    const QString text = report.text();
    for (const char* needed :
         {"How much?", "How even?", "Where too much?", "240 bales", "West", "Olsen",
          "coefficient of variation", "after gas loss", "licensed nutrient planner", "state and",
          "Missouri", "recorded by GPS", "What was done, and what if: as it was"})
        EXPECT_TRUE(text.contains(needed)) << needed;
    EXPECT_FALSE(text.contains("nan"));
    EXPECT_TRUE(report.sheet.pdf.startsWith("%PDF"));
    EXPECT_GE(report.sheet.record.pages, 5);
}

// All of 2026-27 is recalled: no pasture's figure is a bare number with a decimal.
TEST(GroundReport, ShowsClassesWhereAllIsRecalled) {
    const Report report("2026-27");
    EXPECT_FALSE(report.account.ledger.provenance.shows_numbers());
    EXPECT_TRUE(report.text().contains("classes stand in place of numbers"));
    EXPECT_TRUE(report.text().contains("20 to 50 bales, "));  // 36 in all
    EXPECT_FALSE(report.text().contains("36 bales"));
}

}  // namespace
}  // namespace haylane
