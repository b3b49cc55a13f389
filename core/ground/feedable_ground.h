#pragma once
// Where hay may be laid in a pasture: the pasture less off-limits ground with setbacks, the fence
// strip, soft ground on thaw days, ground closed by hand, and cells that are too steep. Ranch
// frame, metres. A pasture with feed = no, or with nothing left, has an empty region. Errors:
// geometry_failed. Cost: one buffer per off-limits item near the pasture.

#include "core/base/result.h"
#include "core/geometry/region.h"
#include "core/ground/terrain.h"
#include "core/ranch/ranch.h"

#include <vector>

namespace haylane {

struct GroundConditions {
    double fence_strip_m = 6.0;  // fence_strip_m(rig, settings)
    bool thaw = false;
    std::vector<MultiPolygon> closed;  // no hay is laid here; valid shapes, taken off as they are
};

// The polygon part is exact (buffers contain the true setback); steepness is asked of the terrain
// cell by cell.
struct FeedableGround {
    Region region;                     // pasture - setbacks - fence strip - soft ground
    const Terrain* terrain = nullptr;  // not owned; may be null
    double slope_limit_ratio = 0.12;
    double cross_slope_limit_ratio = 0.10;
    bool slope_proven = false;  // slopes known at 5 m or finer all over the region

    // In the region and not steeper than the limit (unknown terrain counts as not steep).
    [[nodiscard]] bool allows(Point p) const;
    // The region covers the line, and every terrain cell it passes keeps the slope limit and, for
    // the line's heading there, the cross-slope limit. Cost: about the cells passed.
    [[nodiscard]] bool allows_line(const Polyline& line) const;
    // Pieces of the straight segment a-b that allows_line accepts, as distances from a, sorted.
    [[nodiscard]] std::vector<Region::Span> allowed_spans(Point a, Point b) const;
};

// `terrain` must outlive the result.
[[nodiscard]] Result<FeedableGround> feedable_ground(const Ranch& ranch, PastureId pasture,
                                                     const Terrain& terrain,
                                                     const GroundConditions& conditions);
// Where one may drive off trails inside a pasture: off water, wetland and buildings (the shape
// itself; one drawn as a line or point counts as half a metre to each side), at least 1 m from the
// fence and from smaller pastures fenced off inside it, off soft ground on thaw days. Steepness is
// not in it.
[[nodiscard]] Result<MultiPolygon> drivable_ground(const Ranch& ranch, PastureId pasture,
                                                   bool thaw);

}  // namespace haylane
