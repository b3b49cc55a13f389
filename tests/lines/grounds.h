#pragma once
// Grounds to lay lines on, for the tests of this folder.

#include "core/base/random.h"
#include "core/lines/candidate_lines.h"
#include "core/lines/joins.h"
#include "tests/support/line_rules.h"

#include <cmath>
#include <optional>
#include <utility>

#include <gtest/gtest.h>

namespace haylane::test {

inline Ring rectangle(double x0, double y0, double x1, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

inline RawMap square_map(double side_m) {
    RawMap map;
    map.pasture = {{rectangle(0, 0, side_m, side_m), {}}};
    return map;
}

// `terrain` must outlive the result.
inline FeedableGround ground_of(const RawMap& map, const Terrain& terrain) {
    Ranch ranch;
    Pasture pasture;
    pasture.shape = map.pasture;
    ranch.pastures.push_back(pasture);
    ranch.off_limits = map.off_limits;
    auto ground = feedable_ground(ranch, PastureId::at(0), terrain, {map.fence_strip_m, false});
    EXPECT_TRUE(ground.has_value());
    return ground ? *ground : FeedableGround{};
}

// Terrain of 5 m cells over the box and 50 m around it; height_m(Point) gives metres.
template <class Height>
Terrain terrain_over(const Box& box, Height height_m) {
    constexpr double kCell_m = 5.0;
    TerrainData data{Raster<float>(grid_over(box.grown_by(50.0), kCell_m)), kCell_m};
    for (int j = 0; j < data.elevation_m.grid.ny; ++j)
        for (int i = 0; i < data.elevation_m.grid.nx; ++i)
            data.elevation_m(i, j) =
                static_cast<float>(height_m(data.elevation_m.grid.center(i, j)));
    return Terrain(data);
}

// For each line of a way of laying, the join to it; empty for a load's first line. nullopt when
// some join cannot be driven.
inline std::optional<std::vector<Polyline>> joins(const Candidate& candidate, double radius_m,
                                                  const Region& drivable) {
    std::vector<Polyline> all;
    MultiPolyline hay;
    for (std::size_t i = 0; i < candidate.lines.size(); ++i) {
        const CandidateLine& line = candidate.lines[i];
        const bool begins = i == 0 || line.load != candidate.lines[i - 1].load;
        auto way = begins ? std::optional(Polyline{})
                          : join(hay.back(), line.path, hay, radius_m, drivable);
        if (!way) return std::nullopt;
        all.push_back(std::move(*way));
        hay.push_back(line.path);
    }
    return all;
}

}  // namespace haylane::test
