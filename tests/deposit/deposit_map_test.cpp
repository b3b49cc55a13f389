// Checks conservation of mass per nutrient, placement inside the fence, shares of dung and urine,
// and two worked examples on where they fall.
#include "core/deposit/deposit_map.h"

#include "core/deposit/excreta_places.h"
#include "tests/deposit/made_ground.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

Ranch ranch_with_places() {
    Ranch ranch;
    ranch.pastures.resize(1);
    ranch.water.push_back({"trough", {45.0, 30.0}});
    ranch.water.push_back({"elsewhere", {4500.0, 30.0}});
    Shelter belt;
    belt.name = "belt";
    belt.lines = {{{10.0, 80.0}, {90.0, 80.0}}};
    ranch.shelter.push_back(belt);
    return ranch;
}

Laying laying_on(
    std::variant<std::monostate, MultiPolyline, MultiPolygon, std::vector<Point>> shape,
    const Rig* rig) {
    Laying laying;
    laying.shape = std::move(shape);
    laying.bales = 3.0;
    laying.rig = rig;
    laying.split = excretion({.dm_offered_kg = 1500.0}, Settings{});
    return laying;
}

std::vector<Laying> layings_of_all_kinds(const Rig* rig) {
    return {
        laying_on(MultiPolyline{{{-50.0, 20.0}, {140.0, 70.0}}, {{20.0, 10.0}, {25.0, 60.0}}}, rig),
        laying_on(MultiPolygon{{{{20, 20}, {60, 20}, {60, 50}, {20, 50}}, {}}}, nullptr),
        laying_on(MultiPolygon{{{{20, 20}, {20.1, 20}, {20.1, 20.1}}, {}}}, nullptr),
        laying_on(std::vector<Point>{{30, 30}, {-70, 30}}, nullptr),
        laying_on(std::monostate{}, nullptr),
        laying_on(MultiPolyline{}, rig)};
}

void expect_mass(const PastureGround& ground, const Raster<double>& map, double expected) {
    EXPECT_NEAR(testing::total(map), expected, 1e-9 * expected);
    EXPECT_TRUE(testing::nothing_outside(ground, map));
    EXPECT_GE(testing::least(map), 0.0);
}

TEST(DepositMap, ConservesEveryNutrientOnAnyGround) {
    const Ranch ranch = ranch_with_places();
    Rig rig;
    rig.method = Method::shred;
    Random random(31);
    for (int trial = 0; trial < 10; ++trial) {
        SCOPED_TRACE(trial);
        const PastureGround ground = testing::ragged_ground(Grid{0.0, 0.0, 3.0, 33, 31},
                                                            0.3 + 0.7 * random.uniform(), random);
        for (const Laying& laying : layings_of_all_kinds(&rig)) {
            const DepositMap map = deposit_map(ranch, ground, {laying});
            const DepositSplit& s = laying.split;
            expect_mass(ground, map.n_kg, s.residue.n_kg + s.excreted.n_kg);
            expect_mass(ground, map.p2o5_kg, s.residue.p2o5_kg + s.excreted.p2o5_kg);
            expect_mass(ground, map.k2o_kg, s.residue.k2o_kg + s.excreted.k2o_kg);
            expect_mass(ground, map.residue_dm_kg, s.residue_dm_kg);
            expect_mass(ground, map.bales, 3.0);
        }
    }
}

TEST(DepositMap, IsLinearInFeedings) {
    const Ranch ranch = ranch_with_places();
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 33, 31});
    const std::vector<Laying> layings = layings_of_all_kinds(nullptr);
    DepositMap one_by_one = empty_map(ground);
    for (const Laying& laying : layings) {
        one_by_one = sum(one_by_one, deposit_map(ranch, ground, {laying}));
    }
    const DepositMap together = deposit_map(ranch, ground, layings);
    for (const Measure m :
         {Measure::n, Measure::p2o5, Measure::k2o, Measure::residue, Measure::bales}) {
        for (std::size_t c = 0; c < ground.mask.values.size(); ++c) {
            EXPECT_NEAR(layer(together, m).values[c], layer(one_by_one, m).values[c], 1e-12);
        }
    }
}

TEST(DepositMap, OfAWholePastureIsEvenWithoutWaterAndShelter) {
    Ranch ranch;
    ranch.pastures.resize(1);
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 20, 20});
    const Laying laying = laying_on(std::monostate{}, nullptr);
    const DepositMap map = deposit_map(ranch, ground, {laying});
    const double each = (laying.split.residue.n_kg + laying.split.excreted.n_kg) / 400.0;
    for (const double value : map.n_kg.values) EXPECT_NEAR(value, each, 1e-12 * each);
}

TEST(DepositMap, OfNothingIsEmptyAndAGroundWithoutCellsTakesNothing) {
    Ranch ranch;
    ranch.pastures.resize(1);
    PastureGround none = testing::full_ground(Grid{0.0, 0.0, 3.0, 4, 4});
    none.mask = none.target = Raster<std::uint8_t>(none.mask.grid);
    testing::count_cells(none);
    for (const Laying& laying : layings_of_all_kinds(nullptr)) {
        EXPECT_EQ(testing::total(deposit_map(ranch, none, {laying}).n_kg), 0.0);
    }
    EXPECT_EQ(testing::total(deposit_map(ranch, none, {}).n_kg), 0.0);
}

TEST(ExcretaPlaces, GiveAbsentPointsSharesToTheRest) {
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 33, 31});
    Ranch ranch = ranch_with_places();
    const ExcretaPlaces all = excreta_places(ranch, ground);
    EXPECT_NEAR(all.line_ratio, 0.35, 1e-12);
    EXPECT_NEAR(testing::total(all.elsewhere), 0.65, 1e-12);
    // Far from water and shelter (over 3 sigma on an axis) only the rest falls: 0.30 of all, even.
    EXPECT_GT(all.elsewhere(15, 10), 0.30 / 1023.0);
    ranch.water.clear();
    ranch.shelter.clear();
    const ExcretaPlaces bare = excreta_places(ranch, ground);
    for (const double value : bare.elsewhere.values) EXPECT_NEAR(value, 0.65 / 1023.0, 1e-15);
}

// Share of excreta = share of time (the model form of the time-budget literature): 100 cows at
// 0.455 lb N a day each, 5 of 24 hours at the feed line: 20.8 % or 9.5 lb N on it, 36.0 lb
// elsewhere.
TEST(ExcretaPlaces, ShareAsTimeIsShared) {
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 33, 31});
    Ranch ranch = ranch_with_places();
    Settings& s = ranch.settings;
    s.share_line_ratio = 5.0 / 24.0;
    s.share_water_ratio = 0.5 / 24.0;
    s.share_shelter_ratio = 10.0 / 24.0;
    s.share_rest_ratio = 8.5 / 24.0;
    const ExcretaPlaces places = excreta_places(ranch, ground);
    const double herd_lb = 100.0 * 0.455;
    EXPECT_NEAR(100.0 * places.line_ratio, 20.8, 0.05);
    EXPECT_NEAR(herd_lb * places.line_ratio, 9.5, 0.05);
    EXPECT_NEAR(herd_lb * testing::total(places.elsewhere), 36.0, 0.05);
}

TEST(ExcretaPlaces, FavourTheBeltOverOpenGround) {
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 33, 31});
    Ranch ranch = ranch_with_places();
    ranch.water.clear();
    ranch.settings.sigma_point_m = 5.0;
    const ExcretaPlaces places = excreta_places(ranch, ground);
    EXPECT_GT(places.elsewhere(16, 26), 4.0 * places.elsewhere(16, 5));
    // A thin belt given as an area holds no cell centre; its edge stands for it.
    Shelter strip;
    strip.area = {{{{10.0, 80.6}, {90.0, 80.6}, {90.0, 80.8}, {10.0, 80.8}}, {}}};
    ranch.shelter = {strip};
    EXPECT_GT(excreta_places(ranch, ground).elsewhere(16, 26), 4.0 * places.elsewhere(16, 5));
}

// 100 cows, 5 h of 24 h at the line, share of excreta = share of time (White et al. 2001); 0.455 lb
// N a cow and day (NRCS 2008): 20.8 %, 9.5 lb N on the line and 36.0 lb elsewhere.
TEST(ExcretaPlaces, ShareTimeAtTheLine) {
    Ranch ranch;
    ranch.settings.share_line_ratio = 5.0;
    ranch.settings.share_water_ratio = 0.0;
    ranch.settings.share_shelter_ratio = 0.0;
    ranch.settings.share_rest_ratio = 19.0;
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 10, 10});
    const ExcretaPlaces places = excreta_places(ranch, ground);
    EXPECT_NEAR(places.line_ratio, 0.208, 0.0005);
    EXPECT_NEAR(100.0 * 0.455 * places.line_ratio, 9.5, 0.05);
    EXPECT_NEAR(100.0 * 0.455 * testing::total(places.elsewhere), 36.0, 0.05);
}

// Moir et al. (2011): 6,240 urine patches a hectare and year of 0.37 m2 cover 23.1 % of the ground
// when none overlap, 20.6 % when they fall at random. Dropped at random on fine cells here.
TEST(DepositMap, PatchesAtRandomCoverWhatPoissonSays) {
    EXPECT_NEAR(6240.0 * 0.37 / 10000.0, 0.231, 0.0005);
    const double cell_m = std::sqrt(0.37);  // a patch a cell
    const int side = 164;                   // 100 m
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, cell_m, side, side});
    Random random(7);
    std::vector<Point> patches;
    for (int n = 0; n < 6240; ++n) {
        patches.push_back({100.0 * 0.99 * random.uniform(), 100.0 * 0.99 * random.uniform()});
    }
    Laying laying = laying_on(patches, nullptr);
    const DepositMap map = deposit_map(Ranch{}, ground, {laying});
    double covered = 0.0;
    for (const double bales : map.bales.values) covered += bales > 0.0 ? 0.37 / 9801.0 : 0.0;
    EXPECT_NEAR(covered, 1.0 - std::exp(-6240.0 * 0.37 / 9801.0), 0.006);
}

TEST(LayingOf, TakesMassWindAndRigFromTheRecord) {
    Ranch ranch;
    ranch.pastures.resize(1);
    ranch.rigs.resize(1);
    FeedingRecord record;
    record.from = record.to = sys_days{std::chrono::year{2027} / 1 / 11};
    record.pasture = PastureId::at(0);
    record.rig = RigId::at(0);
    record.bales = 4.0;
    record.bale_dm_kg = 500.0;
    WeatherDay day;
    day.date = record.from;
    day.wind_from_rad = 1.5;
    ranch.weather.push_back(day);
    const Laying laying = laying_of(ranch, record);
    EXPECT_EQ(laying.bales, 4.0);
    EXPECT_EQ(laying.rig, &ranch.rigs[0]);
    EXPECT_EQ(laying.wind_from_rad, 1.5);
    EXPECT_NEAR(laying.split.residue_dm_kg, 0.12 * 2000.0, 1e-9);
    record.to += std::chrono::days{1};
    EXPECT_EQ(laying_of(ranch, record).wind_from_rad, -1.0);
}

// A herd fed in rings: hay left over lies round each point, an equal part each, all of it kept.
TEST(LayingOf, RingsLeaveHayRoundTheirPlaces) {
    Ranch ranch;
    ranch.pastures.resize(1);
    ranch.rigs.resize(1);
    ranch.herds.resize(1);
    ranch.herds[0].fed_in = FedIn::ring;
    FeedingRecord record;
    record.herd = HerdId::at(0);
    record.rig = RigId::at(0);
    record.bales = 4.0;
    record.bale_dm_kg = 500.0;
    record.shape = std::vector<Point>{{25.0, 25.0}, {75.0, 75.0}};
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 1.0, 100, 100});
    const Laying laying = laying_of(ranch, record);
    const DepositMap map = deposit_map(ranch, ground, {laying});
    double first = 0.0;
    for (int j = 0; j < 100; ++j) {
        for (int i = 0; i < 100; ++i) {
            const double left = map.bales(i, j);
            if (i < 50) first += left;
            const double a = std::hypot(i + 0.5 - 25.0, j + 0.5 - 25.0);
            const double b = std::hypot(i + 0.5 - 75.0, j + 0.5 - 75.0);
            if (left > 0.0) {
                EXPECT_NEAR(std::min(a, b), 2.0, 0.75);
            }
        }
    }
    EXPECT_NEAR(first, 2.0, 1e-9);
    EXPECT_NEAR(testing::total(map.bales), 4.0, 1e-9);
    EXPECT_NEAR(testing::total(map.n_kg), laying.split.residue.n_kg + laying.split.excreted.n_kg,
                1e-9 * laying.split.excreted.n_kg);
}

}  // namespace
}  // namespace haylane
