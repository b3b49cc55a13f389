#pragma once
// Ground out of the wind in a pasture: behind shelter, lee_near_heights to lee_far_heights of its
// height down-wind, and under high ground up-wind. Nearer behind shelter snow drifts: that is not
// sheltered. Ranch frame, metres. Empty where nothing keeps this wind off.
// Errors: geometry_failed. Cost: one overlay of the shelters' edges, one look up-wind a 10 m cell.

#include "core/base/result.h"
#include "core/ground/terrain.h"
#include "core/ranch/ranch.h"

#include <string>
#include <vector>

namespace haylane {

// Ground in the lee of one thing.
struct LeePart {
    std::string of;  // the shelter's name; empty for high ground
    MultiPolygon area;
};

struct ShelteredGround {
    MultiPolygon area;           // all parts together
    std::vector<LeePart> parts;  // shelters in file order, then high ground; none is empty
};

// `wind_from_rad` is the azimuth the wind comes from. Shelter without a height is as high as
// shelter_height_m; one drawn as a point is as wide as it is high.
[[nodiscard]] Result<ShelteredGround> sheltered_ground(const Ranch& ranch, PastureId pasture,
                                                       const Terrain& terrain,
                                                       double wind_from_rad);
// Whether high ground keeps a wind off a place: within 500 m up-wind some ground at least 3 m
// higher rises 1 in `far_heights` to 1 in `near_heights` above it, and none rises steeper.
[[nodiscard]] bool is_under_high_ground(const Terrain& terrain, Point place, double wind_from_rad,
                                        double near_heights, double far_heights);

}  // namespace haylane
