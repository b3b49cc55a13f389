// Checks feedable and drivable ground by hand-worked maps and by true distances at sampled points.
#include "core/ground/feedable_ground.h"

#include "core/base/random.h"
#include "core/base/units.h"
#include "core/geometry/boolean_ops.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

Ring rectangle(double x0, double y0, double x1, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

Ranch square_ranch(double side_m) {
    Ranch ranch;
    Pasture pasture;
    pasture.name = "North";
    pasture.shape = {{rectangle(0, 0, side_m, side_m), {}}};
    ranch.pastures.push_back(pasture);
    return ranch;
}

OffLimits creek(double setback_m) {
    OffLimits item;
    item.name = "creek";
    item.kind = OffLimitsKind::water;
    item.setback_m = setback_m;
    item.lines = {{{-50, 400}, {300, 420}, {500, 380}, {900, 400}}};
    return item;
}

FeedableGround ground_of(const Ranch& ranch, const Terrain& terrain,
                         const GroundConditions& conditions) {
    auto ground = feedable_ground(ranch, PastureId::at(0), terrain, conditions);
    EXPECT_TRUE(ground.has_value());
    return ground ? *ground : FeedableGround{};
}

Terrain stripes(double rise_ratio, double width_m, double side_m, double cell_m) {
    const int n = static_cast<int>(std::ceil(side_m / cell_m)) + 4;
    TerrainData data{Raster<float>(Grid{-2 * cell_m, -2 * cell_m, cell_m, n, n}), cell_m};
    for (int j = 0; j < n; ++j) {
        for (int i = 0; i < n; ++i) {
            const double x = data.elevation_m.grid.center(i, j).x;
            const double phase = std::fmod(x + 100 * width_m, 2 * width_m);
            const double height = phase < width_m ? 0.0 : (phase - width_m) * rise_ratio;
            data.elevation_m(i, j) = static_cast<float>(height);
        }
    }
    return Terrain(data);
}

// Agronomy example: a line vertex 80 ft from a stream fails the 100 ft rule (40 CFR 412.4(c)(5),
// second hand) by 20 ft.
TEST(FeedableGround, FailsA100FootSetbackBy20FeetAt80Feet) {
    Ranch ranch = square_ranch(800);
    OffLimits stream = creek(100 * units::kMetersPerFoot);
    stream.lines = {{{-50, 400}, {850, 400}}};
    ranch.off_limits.push_back(stream);
    const Terrain none;
    const FeedableGround ground = ground_of(ranch, none, {});
    const Point vertex{400, 400 + 80 * units::kMetersPerFoot};
    EXPECT_FALSE(ground.allows(vertex));
    EXPECT_NEAR(ground.region.distance_to_edge_m(vertex), 20 * units::kMetersPerFoot, 0.06);
    EXPECT_TRUE(ground.allows({400, 400 + 100.3 * units::kMetersPerFoot}));
}

TEST(FeedableGround, KeepsTheTrueDistanceFromEveryOffLimits) {
    Ranch ranch = square_ranch(800);
    ranch.off_limits.push_back(creek(30.5));
    OffLimits barn;
    barn.kind = OffLimitsKind::building;
    barn.setback_m = 46;
    barn.area = {{rectangle(600, 600, 630, 615), {}}};
    ranch.off_limits.push_back(barn);
    OffLimits well;
    well.kind = OffLimitsKind::well;
    well.setback_m = 91.44;
    well.points = {{200, 650}};
    ranch.off_limits.push_back(well);
    const Terrain none;
    const FeedableGround ground = ground_of(ranch, none, {});
    Random random(7);
    int inside = 0;
    int outside_by_rule = 0;
    for (int k = 0; k < 60000; ++k) {
        const Point p{800 * random.uniform(), 800 * random.uniform()};
        const double fence = std::min({p.x, p.y, 800 - p.x, 800 - p.y});
        const double spare = std::min({fence - 6.0, distance_m(p, creek(0).lines[0]) - 30.5,
                                       distance_to_shape_m(p, barn.area) - 46,
                                       distance_m(p, well.points[0]) - 91.44});
        if (ground.allows(p)) {
            ++inside;
            EXPECT_GE(spare, -1e-9) << p.x << " " << p.y;
        } else if (spare < 0.0) {
            ++outside_by_rule;
        } else {
            EXPECT_LT(spare, 0.3) << p.x << " " << p.y;  // buffers are at most 0.2 % too wide
        }
    }
    EXPECT_GT(inside, 30000);
    EXPECT_GT(outside_by_rule, 5000);
}

TEST(FeedableGround, ClosesSoftGroundOnThawDaysOnly) {
    Ranch ranch = square_ranch(300);
    ranch.soft.push_back({"bottom", {{rectangle(0, 0, 300, 100), {}}}});
    const Terrain none;
    EXPECT_TRUE(ground_of(ranch, none, {6.0, false}).allows({150, 50}));
    EXPECT_FALSE(ground_of(ranch, none, {6.0, true}).allows({150, 50}));
    EXPECT_TRUE(ground_of(ranch, none, {6.0, true}).allows({150, 150}));
}

TEST(FeedableGround, IsEmptyWhereFeedingIsForbiddenOrNothingIsLeft) {
    Ranch ranch = square_ranch(300);
    const Terrain none;
    EXPECT_TRUE(ground_of(ranch, none, {151.0, false}).region.empty());
    ranch.pastures[0].feed = false;
    EXPECT_TRUE(ground_of(ranch, none, {}).region.empty());
}

TEST(FeedableGround, LeavesABuriedLineWithoutSetbackOpen) {
    Ranch ranch = square_ranch(300);
    OffLimits pipe = creek(0.0);
    pipe.kind = OffLimitsKind::buried_line;
    pipe.lines = {{{0, 150}, {300, 150}}};
    ranch.off_limits.push_back(pipe);
    const Terrain none;
    EXPECT_TRUE(ground_of(ranch, none, {}).allows_line({{150, 20}, {150, 280}}));
}

TEST(FeedableGround, RefusesSteepCellsAndCrossSlopes) {
    const Ranch ranch = square_ranch(400);
    // 11 % rising east: under the 12 % limit, over the 10 % cross-slope limit when driven north.
    TerrainData data{Raster<float>(Grid{-20, -20, 4, 110, 110}), 4};
    for (int j = 0; j < 110; ++j)
        for (int i = 0; i < 110; ++i) data.elevation_m(i, j) = 0.44F * static_cast<float>(i);
    const Terrain tilted(data);
    const FeedableGround ground = ground_of(ranch, tilted, {});
    EXPECT_TRUE(ground.slope_proven);
    EXPECT_TRUE(ground.allows({200, 200}));
    EXPECT_TRUE(ground.allows_line({{50, 200}, {350, 200}}));
    EXPECT_FALSE(ground.allows_line({{200, 50}, {200, 350}}));
    EXPECT_TRUE(ground.allowed_spans({200, -10}, {200, 410}).empty());
    const Terrain striped = stripes(0.2, 40, 400, 4);
    const FeedableGround steep = ground_of(ranch, striped, {});
    EXPECT_FALSE(steep.allows({60, 200}));
    EXPECT_TRUE(steep.allows({20, 200}));
    EXPECT_FALSE(steep.allows_line({{20, 200}, {100, 200}}));
}

TEST(FeedableGround, SpansAreWhatItAllowsAndNothingElse) {
    Ranch ranch = square_ranch(400);
    ranch.pastures[0].shape[0].holes.push_back({{150, 150}, {150, 250}, {250, 250}, {250, 150}});
    const Terrain terrain = stripes(0.2, 30, 400, 4);
    const FeedableGround ground = ground_of(ranch, terrain, {});
    Random random(3);
    double total = 0.0;
    for (int k = 0; k < 300; ++k) {
        const Point a{500 * random.uniform() - 50, 500 * random.uniform() - 50};
        const Point b{500 * random.uniform() - 50, 500 * random.uniform() - 50};
        const double length = distance_m(a, b);
        const double heading = azimuth_rad(a, b);
        const auto spans = ground.allowed_spans(a, b);
        for (std::size_t i = 1; i < spans.size(); ++i)
            EXPECT_GE(spans[i].from_m, spans[i - 1].to_m);
        for (const auto& span : spans) {
            total += span.to_m - span.from_m;
            const double trim = 1e-6;
            if (span.to_m - span.from_m < 1e-3) continue;
            EXPECT_TRUE(ground.allows_line({lerp(a, b, (span.from_m + trim) / length),
                                            lerp(a, b, (span.to_m - trim) / length)}));
        }
        for (double s = 0.25; s < length; s += 0.5) {
            const Point p = lerp(a, b, s / length);
            const auto gradient = terrain.gradient(p);
            const bool fine =
                ground.allows(p) && (!gradient || cross_slope_ratio(*gradient, heading) <= 0.10);
            double away = 1e9;  // from the nearest span end
            bool covered = false;
            for (const auto& span : spans) {
                away = std::min({away, std::abs(s - span.from_m), std::abs(s - span.to_m)});
                covered = covered || (s > span.from_m && s < span.to_m);
            }
            if (away > 1e-6) {
                EXPECT_EQ(covered, fine) << "at " << s << " of " << a.x << " " << a.y;
            }
        }
    }
    EXPECT_GT(total, 10000.0);
}

TEST(FeedableGround, SaysWhetherSlopesAreProven) {
    const Ranch ranch = square_ranch(200);
    TerrainData data{Raster<float>(Grid{-30, -30, 10, 26, 26}, 0.0F), 10};
    const Terrain coarse(data);
    EXPECT_FALSE(ground_of(ranch, coarse, {}).slope_proven);
    data.elevation_m = Raster<float>(Grid{-30, -30, 3, 90, 90}, 0.0F);
    data.own_cell_m = 3;
    const Terrain fine(data);
    EXPECT_TRUE(ground_of(ranch, fine, {}).slope_proven);
    data.elevation_m(40, 40) = std::numeric_limits<float>::quiet_NaN();
    const Terrain gap(data);
    EXPECT_FALSE(ground_of(ranch, gap, {}).slope_proven);
    EXPECT_TRUE(ground_of(ranch, gap, {}).allows(data.elevation_m.grid.center(40, 40)));
    const Terrain none;
    EXPECT_FALSE(ground_of(ranch, none, {}).slope_proven);
}

TEST(DrivableGround, KeepsOffWaterButPassesWellsAndPipes) {
    Ranch ranch = square_ranch(300);
    OffLimits pond = creek(30.5);
    pond.lines.clear();
    pond.area = {{rectangle(100, 100, 140, 140), {}}};
    ranch.off_limits.push_back(pond);
    OffLimits well;
    well.kind = OffLimitsKind::well;
    well.setback_m = 30.5;
    well.points = {{220, 220}};
    ranch.off_limits.push_back(well);
    ranch.soft.push_back({"bottom", {{rectangle(0, 0, 300, 50), {}}}});
    const auto dry = drivable_ground(ranch, PastureId::at(0), false);
    const auto thaw = drivable_ground(ranch, PastureId::at(0), true);
    ASSERT_TRUE(dry && thaw);
    EXPECT_FALSE(contains(*dry, {120, 120}));
    EXPECT_TRUE(contains(*dry, {99.9, 120}));
    EXPECT_TRUE(contains(*dry, {220, 220}));
    EXPECT_FALSE(contains(*dry, {0.9, 120}));
    EXPECT_TRUE(contains(*dry, {1.1, 120}));
    EXPECT_TRUE(contains(*dry, {150, 20}));
    EXPECT_FALSE(contains(*thaw, {150, 20}));
    EXPECT_NEAR(area_m2(*dry), 298 * 298 - 1600, 5.0);
}

TEST(DrivableGround, IsCutByACreekDrawnAsALine) {
    Ranch ranch = square_ranch(800);
    ranch.off_limits.push_back(creek(30.5));
    const auto ground = drivable_ground(ranch, PastureId::at(0), false);
    ASSERT_TRUE(ground);
    EXPECT_EQ(ground->size(), 2U);
}

}  // namespace
}  // namespace haylane
