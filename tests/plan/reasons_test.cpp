// Checks the sentence that says why a line lies where it does, by lines laid by hand.
#include "core/plan/reasons.h"

#include "core/base/units.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::small_ranch;
using testing::square;

// A feeding of the small ranch on one line in West.
struct OneLine {
    CheckedRanch checked = small_ranch();
    ScheduledFeeding feeding;
    PlacedLines placed;

    explicit OneLine(Polyline path) {
        feeding.date = day("2026-01-10");
        feeding.herd = HerdId::at(0);
        feeding.pasture = PastureId::at(0);
        feeding.rig = RigId::at(0);
        placed.lines.lines = {{.path = std::move(path), .bales = 1}};
    }
    [[nodiscard]] std::string reason() const {
        PlanContext context(checked.ranch, {});
        return place_reason(context, feeding, placed);
    }
};

const Polyline kMiddle{{300, 400}, {500, 430}};

TEST(Reasons, NameTheShelterAndTheWind) {
    OneLine one({{300, 555}, {500, 555}});
    one.checked.ranch.shelter = {{.name = "the willows",
                                  .area = {},
                                  .lines = {{{50, 600}, {750, 600}}},
                                  .points = {},
                                  .height_m = 8.0}};
    one.feeding.ground.lee_of_rad = units::rad_from_deg(315.0);
    EXPECT_EQ(one.reason(), "It lies in the lee of the willows, out of the northwest wind.");
    one.placed.lines.lines[0].path = kMiddle;  // not behind them
    EXPECT_EQ(one.reason(), "It lies under high ground, out of the northwest wind.");
}

TEST(Reasons, CleanGroundForCalves) {
    OneLine one(kMiddle);
    one.feeding.ground.fresh_since = day("2025-07-01");
    EXPECT_EQ(one.reason(), "It lies on ground not fed on this winter, clean for calves.");
}

TEST(Reasons, LeafStaysOnALineAlongTheWind) {
    OneLine one(kMiddle);  // heads 81 degrees
    one.feeding.rig = RigId::at(1);
    one.checked.ranch.weather = {{.date = one.feeding.date,
                                  .wind_from_rad = units::rad_from_deg(270.0),
                                  .wind_m_per_s = 6.0}};
    EXPECT_EQ(one.reason(), "It runs along the wind, so the leaf stays on the line.");
    one.checked.ranch.weather[0].wind_from_rad = 0.0;
    EXPECT_EQ(one.reason().find("wind"), std::string::npos);
    one.checked.ranch.weather[0].wind_from_rad = units::rad_from_deg(270.0);
    one.feeding.rig = RigId::at(0);  // peels, and does not mind
    EXPECT_EQ(one.reason().find("wind"), std::string::npos);
}

// A plane that rises 5 % to the north.
TerrainData rising_north() {
    TerrainData data{Raster<float>(Grid{-20.0, -20.0, 10.0, 90, 90}), 10.0};
    for (int j = 0; j < 90; ++j)
        for (int i = 0; i < 90; ++i)
            data.elevation_m(i, j) =
                static_cast<float>(0.05 * data.elevation_m.grid.center(i, j).y);
    return data;
}

TEST(Reasons, SlopesAreDrivenLevelOrStraight) {
    OneLine level(kMiddle);
    level.checked.ranch.terrain = rising_north();
    EXPECT_EQ(level.reason(), "It runs along the contour, so the rig stays level.");
    OneLine straight({{400, 300}, {430, 500}});
    straight.checked.ranch.terrain = rising_north();
    EXPECT_EQ(straight.reason(), "It runs up and down the slope, so the rig does not lean.");
    OneLine askew({{300, 300}, {500, 500}});
    askew.checked.ranch.terrain = rising_north();
    EXPECT_EQ(askew.reason(),
              "Of the lines that fit, it leaves this pasture most even for the driving it takes.");
}

TEST(Reasons, FencesTheLongWayAndTheLastLine) {
    EXPECT_EQ(OneLine({{300, 780}, {500, 780}}).reason(), "It runs along the north fence.");
    EXPECT_EQ(OneLine({{20, 300}, {20, 500}}).reason(), "It runs along the west fence.");
    OneLine curve(kMiddle);
    curve.placed.lines.family = LineFamily::boundary;
    EXPECT_EQ(curve.reason(), "It follows the fence.");
    OneLine far({{300, 400}, {500, 400}});
    EXPECT_EQ(far.reason().find("fence"), std::string::npos);
    far.placed.place = OrderPlace::beside_last;
    EXPECT_EQ(far.reason(), "It lies beside the herd's last line.");
    far.checked.ranch.pastures[0].shape = square(0, 0, 1600, 800);
    EXPECT_EQ(far.reason(),
              "It runs the long way of the field. It lies beside the herd's last line.");
}

}  // namespace
}  // namespace haylane
