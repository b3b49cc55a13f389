// Checks ground fed on before by areas worked by hand: a strip round a line L long is 2 d L + pi
// d2.
#include "core/ground/fed_ground.h"

#include "core/base/units.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

const sys_days kSeason = *parse_day("2026-07-01");
const sys_days kCalving = *parse_day("2027-03-01");

FeedingRecord on(const char* date, PastureId pasture) {
    const sys_days day = *parse_day(date);
    return {.from = day, .to = day, .herd = {}, .pasture = pasture};
}

double fed_m2(const Ranch& ranch) {
    const auto ground = fed_ground(ranch, PastureId::at(0), {kSeason, kCalving}, 10.0);
    EXPECT_TRUE(ground.has_value());
    return ground ? area_m2(*ground) : 0.0;
}

TEST(FedGround, HoldsLinesPatchesAndBalesOfTheSeasonAndPasture) {
    Ranch ranch;
    EXPECT_EQ(fed_m2(ranch), 0.0);
    const double round_m2 = units::kPi * 100.0;
    FeedingRecord line = on("2026-12-01", PastureId::at(0));
    line.shape = MultiPolyline{{{0, 0}, {100, 0}}, {{0, 5}, {100, 5}}};  // strips that overlap
    ranch.feedings.push_back(line);
    EXPECT_NEAR(fed_m2(ranch), 2000.0 + round_m2 + 5.0 * 120.0, 0.02 * 2600.0);
    FeedingRecord bales = on("2026-12-02", PastureId::at(0));
    bales.shape = std::vector<Point>{{0, 200}, {0, 300}};
    ranch.feedings = {bales};
    EXPECT_NEAR(fed_m2(ranch), 2.0 * round_m2, 0.01 * round_m2);
    FeedingRecord patch = on("2026-12-03", PastureId::at(0));
    patch.shape = MultiPolygon{{{{0, 0}, {50, 0}, {50, 50}, {0, 50}}, {}}};
    ranch.feedings = {patch};
    EXPECT_NEAR(fed_m2(ranch), 2500.0 + 4.0 * 500.0 + round_m2, 5.0);
    FeedingRecord elsewhere = line;
    elsewhere.pasture = PastureId::at(1);
    FeedingRecord last_season = line;
    last_season.from = last_season.to = *parse_day("2026-06-30");
    FeedingRecord later = line;
    later.from = later.to = kCalving;
    ranch.feedings = {elsewhere, last_season, later, on("2026-12-04", PastureId::at(0))};
    EXPECT_EQ(fed_m2(ranch), 0.0);
}

}  // namespace
}  // namespace haylane
