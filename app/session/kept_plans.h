#pragma once
// What the book's kept plans meant to feed: for each herd and day, the last plan made that covers
// it.

#include "core/base/result.h"
#include "core/geometry/polyline.h"
#include "gis/exchange/planned_days.h"

#include <filesystem>
#include <vector>

namespace haylane {

struct KeptDay {
    PlannedDay planned;
    MultiPolyline lines;  // ranch frame
};

// By date, then herd.
[[nodiscard]] Result<std::vector<KeptDay>> kept_days(const std::filesystem::path& book);

}  // namespace haylane
