// Checks cells of pastures against areas worked by hand.
#include "core/deposit/pasture_ground.h"

#include "tests/deposit/made_ground.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

MultiPolygon box_shape(double x0, double y0, double x1, double y1) {
    return {{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

Ranch two_pastures() {
    Ranch ranch;
    Pasture first;
    first.name = "first";
    first.shape = box_shape(0, 0, 90, 60);
    Pasture second;
    second.name = "second";
    second.shape = box_shape(60, 0, 150, 60);
    second.ground = Ground::native;
    ranch.pastures = {first, second};
    return ranch;
}

FeedableGround all_of(const MultiPolygon& shape) {
    FeedableGround ground;
    ground.region = Region(shape);
    return ground;
}

TEST(PastureGround, CountsCellsByTheirCentres) {
    const Ranch ranch = two_pastures();
    const PastureGround ground =
        pasture_ground(ranch, PastureId::at(0), all_of(box_shape(30, 0, 90, 60)));
    EXPECT_EQ(ground.cells, 30U * 20U);
    EXPECT_EQ(ground.target_cells, 20U * 20U);
    EXPECT_EQ(ground.weight_ratio, 1.0);
}

TEST(PastureGround, OverlapGoesToTheFirstInFileOrder) {
    const Ranch ranch = two_pastures();
    const PastureGround ground =
        pasture_ground(ranch, PastureId::at(1), all_of(box_shape(60, 0, 150, 60)));
    EXPECT_EQ(ground.cells, 20U * 20U);  // 60 m of the 90 m are left
    EXPECT_EQ(ground.target_cells, 20U * 20U);
    EXPECT_EQ(ground.weight_ratio, 0.2);
}

TEST(PastureGround, HasNoTargetWhereNoFeedMayGo) {
    Ranch ranch = two_pastures();
    ranch.pastures[0].feed = false;
    const PastureGround ground =
        pasture_ground(ranch, PastureId::at(0), all_of(box_shape(0, 0, 90, 60)));
    EXPECT_EQ(ground.cells, 600U);
    EXPECT_EQ(ground.target_cells, 0U);
}

}  // namespace
}  // namespace haylane
