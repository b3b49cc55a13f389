// Ready fields against the map made anew with the same parameters; bands against plain statistics.
#include "core/season/uncertainty.h"

#include "core/ground/feedable_ground.h"
#include "core/season/load_figures.h"
#include "core/season/nutrient_release.h"
#include "core/season/rank_statistics.h"
#include "tests/support/small_ranch.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

Ranch fed_ranch() {
    Ranch ranch = testing::small_ranch().ranch;
    Shelter belt;
    belt.lines = {{{100, 600}, {300, 600}}};
    ranch.shelter.push_back(belt);
    for (std::size_t f = 0; f < ranch.feedings.size(); ++f) {
        if (f % 3 != 0) ranch.feedings[f].lot = LotId::at(f % 3 - 1);
        if (f % 2 == 0) ranch.feedings[f].rig = RigId::at(f % 4 == 0 ? 0 : 1);
    }
    ranch.feedings[5].shape = std::monostate{};
    return ranch;
}

PastureGround ground_of(const Ranch& ranch) {
    const Terrain none;
    const auto dry = feedable_ground(ranch, PastureId::at(0), none, {.fence_strip_m = 6.0});
    return pasture_ground(ranch, PastureId::at(0), *dry);
}

struct Case {
    Ranch ranch = fed_ranch();
    PastureGround ground = ground_of(ranch);
    Feedings feedings = feedings_by_pasture(ranch)[0];
    Span span = *all_on_record(ranch);
    LoadFields fields = load_fields(ranch, PlaceRanches(ranch), ground, feedings, span, 1000000);
};

// A draw's load equals the map made from scratch with the drawn settings and hay. sigma stands on a
// node, where nothing is taken in proportion.
TEST(LoadFields, GiveTheMapOfOtherParameters) {
    Case c;
    ParameterDraw draw = draw_parameters(c.ranch.settings, {true, false, true}, 7, 3);
    draw.settings.sigma_line_m = kSpreadNodes_m[1];
    Ranch changed = c.ranch;
    changed.settings = draw.settings;
    for (FeedingRecord& feeding : changed.feedings) {
        const LotFactors& f = feeding.lot ? draw.lots[feeding.lot->index()] : draw.lots.back();
        feeding.bale_dm_kg *= f.bale_mass;
        feeding.quality.cp_ratio *= f.cp;
        feeding.quality.p_ratio *= f.p;
        feeding.quality.k_ratio *= f.k;
        feeding.waste_ratio *= draw.waste;
    }
    const SeasonMap map = season_map(changed, c.ground, feedings_by_pasture(changed)[0], c.span);
    for (const SeasonMeasure nutrient :
         {SeasonMeasure::n, SeasonMeasure::p2o5, SeasonMeasure::k2o}) {
        const Raster<double> seen =
            through_window(c.ground, layer(map, nutrient), c.ranch.settings.window_m);
        const std::vector<double> load = drawn_load(c.fields, draw, nutrient);
        const double most = *std::max_element(seen.values.begin(), seen.values.end()) / 9.0;
        for (std::size_t i = 0; i < load.size(); ++i)
            ASSERT_NEAR(load[i], seen.values[c.fields.cells[i]] / 9.0, 1e-5 * most);
    }
    const Ledger books = ledger(changed, feedings_by_pasture(changed)[0], c.span);
    const DrawnLedger drawn = drawn_ledger(c.fields, draw);
    EXPECT_NEAR(drawn.on_ground.n_kg, books.on_ground.n_kg, 1e-9 * books.on_ground.n_kg);
    EXPECT_NEAR(drawn.on_ground.k2o_kg, books.on_ground.k2o_kg, 1e-9 * books.on_ground.k2o_kg);
    EXPECT_NEAR(drawn.n_lost_gas_kg, books.n_lost_gas_kg, 1e-9 * books.n_lost_gas_kg);
    EXPECT_NEAR(drawn.animal_days, books.animal_days, 1e-9 * books.animal_days);
    EXPECT_NEAR(drawn.residue_dm_kg, books.residue_dm_kg, 1e-9 * books.residue_dm_kg);
}

// Between nodes the spread's width is taken in proportion: within 1 % of the map's own peak.
TEST(LoadFields, AreCloseBetweenTheSpreadsNodes) {
    Case c;
    ParameterDraw draw{c.ranch.settings, 1.0, std::vector<LotFactors>(4)};
    draw.settings.sigma_line_m = 4.2;
    Ranch changed = c.ranch;
    changed.settings = draw.settings;
    const SeasonMap map = season_map(changed, c.ground, feedings_by_pasture(changed)[0], c.span);
    const Raster<double> seen =
        through_window(c.ground, map.deposit.n_kg, c.ranch.settings.window_m);
    const std::vector<double> load = drawn_load(c.fields, draw, SeasonMeasure::n);
    const double most = *std::max_element(seen.values.begin(), seen.values.end()) / 9.0;
    for (std::size_t i = 0; i < load.size(); ++i)
        ASSERT_NEAR(load[i], seen.values[c.fields.cells[i]] / 9.0, 0.01 * most);
}

// Mean of a triangular distribution: a third of the sum of its corners; its mode is its median when
// it stands in the middle (Johnson, Kotz and Balakrishnan 1995, ch. 26; from memory).
TEST(ParameterRanges, AreTriangular) {
    EXPECT_DOUBLE_EQ(triangular(0.5, 0.0, 1.0, 2.0), 1.0);
    EXPECT_DOUBLE_EQ(triangular(0.0, 0.2, 0.3, 0.6), 0.2);
    EXPECT_DOUBLE_EQ(triangular(1.0, 0.2, 0.3, 0.6), 0.6);
    double sum = 0.0;
    constexpr int kSteps = 100000;
    for (int i = 0; i < kSteps; ++i) sum += triangular((i + 0.5) / kSteps, 0.2, 0.35, 0.6);
    EXPECT_NEAR(sum / kSteps, (0.2 + 0.35 + 0.6) / 3.0, 1e-6);
}

TEST(ParameterRanges, DrawsStayInRangeAndRepeat) {
    const Settings settings;
    for (int d = 0; d < 200; ++d) {
        const ParameterDraw draw = draw_parameters(settings, {true}, 1, d);
        for (const ParameterRange& range : parameter_ranges()) {
            if (range.setting == nullptr) continue;
            EXPECT_LE(range.low, settings.*range.setting) << range.key;
            EXPECT_GE(range.high, settings.*range.setting) << range.key;
            EXPECT_GE(draw.settings.*range.setting, range.low);
            EXPECT_LE(draw.settings.*range.setting, range.high);
        }
        EXPECT_EQ(draw.waste, draw_parameters(settings, {true}, 1, d).waste);
        EXPECT_NE(draw.waste, draw_parameters(settings, {true}, 2, d).waste);
        ASSERT_EQ(draw.lots.size(), 2U);
        EXPECT_LE(std::abs(draw.lots[0].cp - 1.0), 0.05);
    }
}

TEST(Uncertainty, BandsHoldTheUsualFiguresAndRepeat) {
    Case c;
    c.ranch.pastures[0].limit.n_kg_per_m2 = 0.008;
    const auto bands = pasture_bands(c.ranch, c.ground, c.fields, {.draws = 200, .seed = 4}, {});
    ASSERT_TRUE(bands);
    const Ledger books = ledger(c.ranch, c.feedings, c.span);
    const NutrientBands& n = bands->nutrients[0];
    const double mean = books.on_ground.n_kg / area_m2(c.ranch.pastures[0].shape);
    EXPECT_LT(n.mean_per_m2.p10, mean);
    EXPECT_GT(n.mean_per_m2.p90, mean);
    const double available = available_n_kg({&books, 1}).front();
    EXPECT_LT(bands->available_n_kg.p10, available);
    EXPECT_GT(bands->available_n_kg.p90, available);
    EXPECT_LT(n.low_quarter_per_m2.p50, n.mean_per_m2.p50);
    EXPECT_GT(n.high_tenth_per_m2.p50, n.mean_per_m2.p50);
    EXPECT_GE(n.max_per_m2.p50, n.high_tenth_per_m2.p50);
    EXPECT_LT(bands->n_lost_gas_kg.p10, books.n_lost_gas_kg * 1.2);
    EXPECT_GT(bands->n_lost_gas_kg.p90, books.n_lost_gas_kg);
    ASSERT_EQ(bands->chance_over.values.size(), c.ground.mask.values.size());
    int sure = 0;
    int never = 0;
    for (const std::size_t cell : c.fields.cells) {
        const float chance = bands->chance_over.values[cell];
        ASSERT_GE(chance, 0.0F);
        ASSERT_LE(chance, 1.0F);
        sure += chance > 0.9F ? 1 : 0;
        never += chance == 0.0F ? 1 : 0;
    }
    EXPECT_GT(sure, 0);
    EXPECT_GT(never, 0);
    const auto again = pasture_bands(c.ranch, c.ground, c.fields, {.draws = 200, .seed = 4}, {});
    EXPECT_EQ(again->nutrients[1].cv_ratio.p90, bands->nutrients[1].cv_ratio.p90);
    const auto other = pasture_bands(c.ranch, c.ground, c.fields, {.draws = 200, .seed = 5}, {});
    EXPECT_NE(other->nutrients[1].cv_ratio.p90, bands->nutrients[1].cv_ratio.p90);
    // Another seed's band is much the same: 200 draws are enough.
    EXPECT_NEAR(other->nutrients[0].mean_per_m2.p50 / n.mean_per_m2.p50, 1.0, 0.03);
}

// Thinned cells give nearly the same figures.
TEST(Uncertainty, ThinnedCellsAreEnough) {
    Case c;
    const LoadFields thin =
        load_fields(c.ranch, PlaceRanches(c.ranch), c.ground, c.feedings, c.span, 8000);
    EXPECT_GT(thin.step, 1);
    EXPECT_LE(thin.cells.size(), 10000U);
    const auto all = pasture_bands(c.ranch, c.ground, c.fields, {.draws = 20}, {});
    const auto few = pasture_bands(c.ranch, c.ground, thin, {.draws = 20}, {});
    EXPECT_NEAR(few->nutrients[1].cv_ratio.p50 / all->nutrients[1].cv_ratio.p50, 1.0, 0.02);
    EXPECT_NEAR(few->nutrients[1].high_tenth_per_m2.p50 / all->nutrients[1].high_tenth_per_m2.p50,
                1.0, 0.02);
}

TEST(Uncertainty, StopsWhenAsked) {
    Case c;
    std::stop_source stop;
    stop.request_stop();
    EXPECT_FALSE(pasture_bands(c.ranch, c.ground, c.fields, {}, stop.get_token()));
}

}  // namespace
}  // namespace haylane
