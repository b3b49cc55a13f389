// Conservation, additivity, fences, order and cell size of season maps, and two published loads.
#include "core/season/season_map.h"

#include "core/base/random.h"
#include "core/base/units.h"
#include "core/ground/feedable_ground.h"
#include "core/season/load_figures.h"
#include "tests/deposit/made_ground.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using units::kKgPerPound;

PastureGround ground_of(const Ranch& ranch, PastureId pasture) {
    const Terrain terrain;
    const auto dry = feedable_ground(ranch, pasture, terrain,
                                     {.fence_strip_m = ranch.settings.fence_clearance_m});
    return pasture_ground(ranch, pasture, *dry);
}

SeasonMap map_of(const Ranch& ranch, const PastureGround& ground) {
    return season_map(ranch, ground, feedings_by_pasture(ranch)[ground.pasture.index()],
                      *all_on_record(ranch));
}

// Feedings of every kind of place; one line runs out through the fence.
Ranch ranch_of_all_kinds() {
    Ranch ranch = testing::small_ranch().ranch;
    ranch.feedings.resize(6);
    ranch.feedings[0].shape = MultiPolyline{{{700, 300}, {900, 320}}};
    ranch.feedings[1].shape = MultiPolygon{testing::square(100, 100, 160, 190)};
    ranch.feedings[2].shape = std::vector<Point>{{50, 50}, {220, 410}};
    ranch.feedings[3].shape = std::monostate{};
    ranch.feedings[3].to = ranch.feedings[3].from + std::chrono::days{9};
    ranch.feedings[4].rig = RigId::at(1);
    return ranch;
}

TEST(SeasonMap, ConservesEveryNutrientInsideTheFence) {
    const Ranch ranch = ranch_of_all_kinds();
    const PastureGround ground = ground_of(ranch, PastureId::at(0));
    const Ledger books = ledger(ranch, feedings_by_pasture(ranch)[0], *all_on_record(ranch));
    const SeasonMap map = map_of(ranch, ground);
    const double expected[] = {
        books.on_ground.n_kg, books.on_ground.p2o5_kg, books.on_ground.k2o_kg,
        books.residue_dm_kg,  books.hay_dm_kg,         books.animal_days,
        books.bales};
    for (const SeasonMeasure measure : kSeasonMeasures) {
        SCOPED_TRACE(std::string(to_string(measure)));
        const double mass = expected[static_cast<std::size_t>(measure)];
        EXPECT_NEAR(testing::total(layer(map, measure)), mass, 1e-9 * mass);
        EXPECT_TRUE(testing::nothing_outside(ground, layer(map, measure)));
    }
}

TEST(SeasonMap, OfTwoSetsIsTheSumOfTheirs) {
    const Ranch all = ranch_of_all_kinds();
    Ranch a = all;
    Ranch b = all;
    a.feedings = {all.feedings[0], all.feedings[3], all.feedings[5]};
    b.feedings = {all.feedings[1], all.feedings[2], all.feedings[4]};
    const PastureGround ground = ground_of(all, PastureId::at(0));
    const SeasonMap together = map_of(all, ground);
    SeasonMap apart = map_of(a, ground);
    add_map(map_of(b, ground), apart);
    for (const SeasonMeasure measure : kSeasonMeasures) {
        for (std::size_t c = 0; c < ground.mask.values.size(); ++c)
            ASSERT_NEAR(layer(together, measure).values[c], layer(apart, measure).values[c], 1e-10);
    }
}

TEST(SeasonMap, OfASeasonsPartsIsTheSumOfTheParts) {
    const Ranch ranch = ranch_of_all_kinds();
    const PastureGround ground = ground_of(ranch, PastureId::at(0));
    const Feedings feedings = feedings_by_pasture(ranch)[0];
    const sys_days middle = ranch.feedings[3].from + std::chrono::days{3};
    const Span all = *all_on_record(ranch);
    SeasonMap parts = season_map(ranch, ground, feedings, span_between(all.from, middle));
    add_map(
        season_map(ranch, ground, feedings, span_between(middle + std::chrono::days{1}, all.to)),
        parts);
    const SeasonMap whole = season_map(ranch, ground, feedings, all);
    for (std::size_t c = 0; c < ground.mask.values.size(); ++c)
        ASSERT_NEAR(whole.deposit.n_kg.values[c], parts.deposit.n_kg.values[c], 1e-10);
}

TEST(SeasonMap, IsTheSameInAnyOrderOfTheRecords) {
    Ranch ranch = ranch_of_all_kinds();
    const PastureGround ground = ground_of(ranch, PastureId::at(0));
    const SeasonMap first = map_of(ranch, ground);
    std::reverse(ranch.feedings.begin(), ranch.feedings.end());
    const SeasonMap again = map_of(ranch, ground);
    for (const SeasonMeasure measure : kSeasonMeasures)
        EXPECT_TRUE(layer(first, measure).values == layer(again, measure).values);
}

// Totals and means over the polygon's area to 1e-9, the windowed CV within 5 %.
TEST(SeasonMap, HardlyDependsOnTheCell) {
    Ranch ranch = ranch_of_all_kinds();
    LoadFigures figures[2];
    for (const int i : {0, 1}) {
        ranch.settings.cell_m = i == 0 ? 3.0 : 1.5;
        const PastureGround ground = ground_of(ranch, PastureId::at(0));
        const SeasonMap map = map_of(ranch, ground);
        figures[i] = load_figures(ground, area_m2(ranch.pastures[0].shape), map.deposit.n_kg,
                                  through_window(ground, map.deposit.n_kg, ranch.settings.window_m),
                                  std::nullopt);
    }
    EXPECT_NEAR(figures[0].total, figures[1].total, 1e-9 * figures[1].total);
    EXPECT_NEAR(figures[0].mean_per_m2, figures[1].mean_per_m2, 1e-9 * figures[1].mean_per_m2);
    EXPECT_NEAR(figures[0].even->cv_ratio, figures[1].even->cv_ratio,
                0.05 * figures[1].even->cv_ratio);
}

// A bare ranch of one pasture where nothing is kept, lost as gas, or dropped away from the hay.
Ranch all_at_the_hay(const MultiPolygon& shape) {
    Ranch ranch;
    ranch.pastures.push_back({.name = "One", .shape = shape});
    Settings& s = ranch.settings;
    s.cell_m = 0.25;
    s.share_line_ratio = 1.0;
    s.share_water_ratio = s.share_shelter_ratio = s.share_rest_ratio = 0.0;
    s.sigma_line_m = 0.0;
    s.retained_n_ratio = s.gas_urine_n_ratio = s.gas_dung_n_ratio = 0.0;
    return ranch;
}

// North Dakota State: a bale unrolls to about 300 ft, its strip is about 14 ft wide. A bale of 27
// lb N (Lanigan trial) laid evenly in that strip: 280 lb N/ac in it.
TEST(SeasonMap, PutsTwoHundredEightyPoundsInAnUnrolledStrip) {
    const double length = 300.0 * units::kMetersPerFoot;
    const double width = 14.0 * units::kMetersPerFoot;
    Ranch ranch = all_at_the_hay(testing::square(0, 0, 200, 60));
    const double n_kg = 27.0 * kKgPerPound;
    ranch.feedings.push_back({.from = day("2026-01-10"),
                              .to = day("2026-01-10"),
                              .pasture = PastureId::at(0),
                              .bales = 1.0,
                              .bale_dm_kg = 546.0,
                              .quality = {n_kg * kProteinPerN / 546.0, 0.5, 0.0015, 0.01, true},
                              .shape = testing::square(50, 20, 50 + length, 20 + width)});
    const PastureGround ground = ground_of(ranch, PastureId::at(0));
    const SeasonMap map = map_of(ranch, ground);
    EXPECT_NEAR(testing::total(map.deposit.n_kg), n_kg, 1e-9 * n_kg);
    const int i = ground.mask.grid.column(70.0);
    const int j = ground.mask.grid.row(21.0);
    const double per_m2 = map.deposit.n_kg(i, j) / ground.mask.grid.cell_area_m2();
    EXPECT_NEAR(units::lb_per_ac_from_kg_per_m2(per_m2), 280.0, 2.0);  // 280.03; cells: 0.5 %
}

// Barclay (2011): 25 bales an acre of 1,300 lb at 13 % moisture, 10 % wasted, 14 % CP, 0.56 of
// 0.616 lb N excreted: 581 lb N/ac, by the whole way from record to map.
TEST(SeasonMap, ReproducesBarclaysNitrogenPerAcre) {
    const double side = std::sqrt(units::kM2PerAcre);
    Ranch ranch = all_at_the_hay(testing::square(0, 0, side, side));
    ranch.settings.cell_m = 3.0;
    ranch.settings.retained_n_ratio = 1.0 - 0.56 / 0.616;
    ranch.feedings.push_back({.from = day("2026-01-10"),
                              .to = day("2026-02-10"),
                              .pasture = PastureId::at(0),
                              .bales = 25.0,
                              .bale_dm_kg = 1131.0 * kKgPerPound,
                              .quality = {0.14, 0.55, 0.0018, 0.0132, true},
                              .waste_ratio = 0.10});
    const PastureGround ground = ground_of(ranch, PastureId::at(0));
    const SeasonMap map = map_of(ranch, ground);
    const LoadFigures n = load_figures(ground, area_m2(ranch.pastures[0].shape), map.deposit.n_kg,
                                       map.deposit.n_kg, std::nullopt);
    EXPECT_NEAR(units::lb_per_ac_from_kg_per_m2(n.mean_per_m2), 581.25, 0.6);
}

}  // namespace
}  // namespace haylane
