#pragma once
// What laying hay elsewhere than planned did to how even a pasture's winter is.

#include "app/session/open_ranch.h"
#include "core/geometry/polyline.h"

#include <optional>
#include <string>

namespace haylane {

struct LaidElsewhere {
    std::string pasture;
    std::string rig;
    sys_days date;
    double bales = 0.0;
    MultiPolyline planned;
    MultiPolyline laid;
};

struct EvennessChange {
    double planned_cv = 0.0;
    double laid_cv = 0.0;
};
// CV of the season's bales over the pasture's feed ground, through the window the plan judges by:
// what is on record of the season and this feeding on either lines. nullopt where the pasture has
// no feed ground. Cost: two deposit maps of the pasture.
[[nodiscard]] std::optional<EvennessChange> evenness_change(const OpenRanch& open,
                                                            const LaidElsewhere& feeding);

}  // namespace haylane
