#pragma once
// Reads back what a stored plan.json meant to feed, so that days can be recorded as planned.

#include "core/base/day.h"
#include "core/base/result.h"
#include "gis/crs/frame.h"

#include <string>
#include <vector>

namespace haylane {

struct PlannedDay {
    sys_days date;
    std::string herd;
    std::string pasture;
    std::string rig;
    struct Bales {
        std::string lot;
        int count = 0;
    };
    std::vector<Bales> bales;
    std::vector<std::string> line_ids;  // none for a herd fed in rings
    std::vector<LonLat> places;         // of its bales then
    bool another = false;               // the user had asked for another way
};

// One entry a feeding, in the plan's order. Error "plan_unreadable" for anything but a plan.
[[nodiscard]] Result<std::vector<PlannedDay>> planned_days(const std::string& plan_json);

}  // namespace haylane
