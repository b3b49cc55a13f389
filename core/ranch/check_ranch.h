#pragma once
// Turns a raw ranch into a checked one, once: resolves names, fills defaults, repairs shapes, and
// lists everything odd. Fails only when nothing could be planned or shown (no usable pasture).
// Cost: linear in rows, GEOS overlay for overlaps.

#include "core/base/problem.h"
#include "core/base/result.h"
#include "core/ranch/ranch.h"
#include "core/ranch/raw_ranch.h"

#include <string>
#include <vector>

namespace haylane {

// A feature that a missing role switches off, e.g. {"cold", "no weather table"}.
struct SwitchedOff {
    std::string feature;
    std::string because;
};

struct CheckedRanch {
    Ranch ranch;
    Problems problems;
    std::vector<SwitchedOff> switched_off;
};

// `begun`: a ranch that is still being drawn, which may have no pasture.
[[nodiscard]] Result<CheckedRanch> check_ranch(const RawRanch& raw, bool begun = false);

}  // namespace haylane
