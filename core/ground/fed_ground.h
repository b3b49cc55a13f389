#pragma once
// Ground that was fed on: lines, patches and bales on record, each with a strip around it. Ranch
// frame, metres. Feedings recorded for a whole pasture take up none, as where they lay is not
// known. Errors: geometry_failed. Cost: one buffer a record and line.

#include "core/base/day.h"
#include "core/base/result.h"
#include "core/geometry/polygon.h"
#include "core/ranch/ranch.h"

#include <optional>

namespace haylane {

// Fed on in the pasture since a day, and before another if one is given; and all within `away_m` >
// 0 of it.
struct FedBetween {
    sys_days since;
    std::optional<sys_days> before;
};
[[nodiscard]] Result<MultiPolygon> fed_ground(const Ranch& ranch, PastureId pasture,
                                              const FedBetween& when, double away_m);

// The lines of a feeding, or the row that its places make in their order; none for other shapes.
[[nodiscard]] MultiPolyline rows_fed(const FeedingRecord& record);

}  // namespace haylane
