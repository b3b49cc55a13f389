#pragma once
// What wind does while hay is laid: the direction a shredding rig minds, and the dry matter it
// loses as fines. Other rigs do not mind.

#include "core/geometry/polyline.h"
#include "core/ranch/ranch.h"

#include <optional>

namespace haylane {

// Azimuth of a wind that a rig minds on a day: a shredding rig, a direction known, and a wind of
// 5 mph (assumption) or of unknown strength.
[[nodiscard]] std::optional<double> laying_wind_from_rad(const Ranch& ranch, const Rig& rig,
                                                         sys_days day);
// Share of the dry matter lost as fines along these lines: w0 + w1 v |sin(heading - wind)|, at most
// a half. w1 counts where direction and strength are known.
[[nodiscard]] double fines_ratio(const Ranch& ranch, const Rig& rig, sys_days day,
                                 const MultiPolyline& lines);

}  // namespace haylane
