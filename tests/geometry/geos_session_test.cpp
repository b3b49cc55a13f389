// Checks that sessions do not share anything: what one thread's GEOS says never shows in another's,
// and results do not depend on the number of threads.
#include "core/geometry/geos_session.h"

#include "core/base/parallel.h"
#include "core/geometry/boolean_ops.h"
#include "tests/geometry/geometry_support.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(GeosSession, EachHasItsOwnContext) {
    const GeosSession a;
    const GeosSession b;
    EXPECT_NE(a.context(), b.context());
}

TEST(GeosSession, KeepsTheTextOfItsOwnFailure) {
    std::vector<std::string> said(400);
    parallel_for(said.size(), 4, [&](std::size_t i) {
        const GeosSession geos;
        const std::string junk = "JUNK" + std::to_string(i) + "X";
        const GeosShape shape = geos.own(GEOSGeomFromWKT_r(geos.context(), junk.c_str()));
        said[i] = shape ? "no failure" : geos.error("reading").what;
    });
    for (std::size_t i = 0; i < said.size(); ++i)
        EXPECT_NE(said[i].find("JUNK" + std::to_string(i) + "X"), std::string::npos) << said[i];
}

TEST(GeosSession, ResultsAreTheSameForOneThreadAndFour) {
    std::vector<MultiPolygon> shapes;
    Random random(42);
    for (int k = 0; k < 64; ++k) shapes.push_back(jagged_shape(random));
    const auto run = [&](int threads) {
        std::vector<MultiPolygon> results(shapes.size());
        parallel_for(shapes.size(), threads, [&](std::size_t i) {
            const auto grown = buffer_shape(shapes[i], 5.0);
            if (grown) results[i] = subtract(*grown, shapes[i]).value_or(MultiPolygon{});
        });
        return results;
    };
    const auto one = run(1);
    const auto four = run(4);
    for (std::size_t i = 0; i < one.size(); ++i) {
        ASSERT_FALSE(one[i].empty());
        ASSERT_EQ(one[i].size(), four[i].size());
        for (std::size_t j = 0; j < one[i].size(); ++j) {
            EXPECT_EQ(one[i][j].outer, four[i][j].outer);
            EXPECT_EQ(one[i][j].holes, four[i][j].holes);
        }
    }
}

TEST(GeosSession, CarriesShapesThereAndBack) {
    const GeosSession geos;
    const Ring hole = reversed(rectangle(2.0, 2.0, 4.0, 4.0));
    const GeosShape shape = geos.shape({{rectangle(0.0, 0.0, 10.0, 10.0), {hole}}});
    ASSERT_TRUE(shape);
    const auto back = geos.polygons(shape.get());
    ASSERT_TRUE(back.has_value());
    ASSERT_EQ(back->size(), 1U);
    EXPECT_EQ(back->front().outer, rectangle(0.0, 0.0, 10.0, 10.0));
    ASSERT_EQ(back->front().holes.size(), 1U);
    EXPECT_EQ(back->front().holes[0], hole);
    EXPECT_FALSE(geos.line({{1.0, 1.0}}));
}

}  // namespace
}  // namespace haylane
