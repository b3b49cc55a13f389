#pragma once
// Records that a herd was fed on a day: as planned, or with other bales, lot, pasture or line.

#include "app/session/open_ranch.h"

#include <optional>
#include <string>

namespace haylane {

struct DoneRequest {
    sys_days date;
    std::string herd;  // empty = every herd planned that day (or the only herd)
    bool as_planned = false;
    std::optional<int> bales;
    std::string lot;
    std::string pasture;
    std::string line;
};

struct DoneReport {
    std::vector<std::string> sentences;  // one a feeding, for people
};

// Errors: "no_plan" (as planned, but nothing was planned), "already_fed" (that herd and day stand
// in the book), "unknown_herd", "unknown_lot", "unknown_pasture", "unknown_line", "hay_short".
[[nodiscard]] Result<DoneReport> record_done(const OpenRanch& ranch, const DoneRequest& request);

}  // namespace haylane
