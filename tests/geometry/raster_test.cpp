// Checks against hand-counted cells.
#include "core/geometry/raster.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(Grid, CoversABoxWithWholeCells) {
    Box box;
    box.add({-4.0, 2.0});
    box.add({7.0, 8.9});
    const Grid grid = grid_over(box, 3.0);
    EXPECT_EQ(grid, (Grid{-6.0, 0.0, 3.0, 5, 3}));
    EXPECT_EQ(grid.size(), 15U);
    EXPECT_EQ(grid.column(-4.0), 0);
    EXPECT_EQ(grid.column(7.0), 4);
    EXPECT_EQ(grid.row(8.9), 2);
    EXPECT_EQ(grid.center(0, 0), (Point{-4.5, 1.5}));
    EXPECT_EQ(grid.at(1, 2), 11U);
    EXPECT_TRUE(grid.holds(4, 2));
    EXPECT_FALSE(grid.holds(5, 2));
    EXPECT_FALSE(grid.holds(-1, 0));
    EXPECT_DOUBLE_EQ(grid.cell_area_m2(), 9.0);
}

TEST(Grid, IsEmptyForAnEmptyBox) { EXPECT_EQ(grid_over(Box{}, 3.0).size(), 0U); }

TEST(Raster, KeepsItsValuesByColumnAndRow) {
    Raster<int> raster(Grid{0.0, 0.0, 1.0, 3, 2}, 7);
    ASSERT_EQ(raster.values.size(), 6U);
    raster(2, 1) = 9;
    EXPECT_EQ(raster.values[5], 9);
    EXPECT_EQ(raster(0, 0), 7);
}

}  // namespace
}  // namespace haylane
