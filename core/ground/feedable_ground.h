#pragma once
// Where hay may be laid in a pasture: the pasture less off-limits ground with setbacks, the fence
// strip, soft ground on thaw days, and cells that are too steep.

#include "core/base/problem.h"
#include "core/base/result.h"
#include "core/geometry/region.h"
#include "core/ground/terrain.h"
#include "core/ranch/ranch.h"

namespace haylane {

struct GroundConditions {
    double fence_strip_m = 6.0;  // fence_strip_m(rig, settings)
    bool thaw = false;
};

// The polygon part is exact; steepness is asked of the terrain cell by cell.
struct FeedableGround {
    Region region;               // pasture - setbacks - fence strip - soft ground
    const Terrain* terrain = nullptr;  // not owned; may be null
    double slope_limit_ratio = 0.12;
    double cross_slope_limit_ratio = 0.10;
    bool slope_proven = false;   // terrain known at 5 m or finer over the pasture

    // In the region and not steeper than the limit (unknown terrain counts as not steep).
    [[nodiscard]] bool allows(Point p) const;
    // allows() at every step (2 m or a third of the terrain cell) and the cross-slope limit kept.
    [[nodiscard]] bool allows_line(const Polyline& line) const;
};

[[nodiscard]] Result<FeedableGround> feedable_ground(const Ranch& ranch, PastureId pasture,
                                                     const Terrain& terrain,
                                                     const GroundConditions& conditions);
// Where one may drive off trails inside a pasture: off water, wetland and buildings (the shape
// itself), at least 1 m from the fence, off soft ground on thaw days. Steepness is not in it.
[[nodiscard]] Result<MultiPolygon> drivable_ground(const Ranch& ranch, PastureId pasture, bool thaw);

}  // namespace haylane
