#pragma once
// Where in a pasture one laying's hay lies and where its near-line excreta drop, as shares of
// cells.

#include "core/deposit/deposit_map.h"

#include <vector>

namespace haylane {

struct LayingPlaces {
    std::vector<CellAmount> residue;  // sums to 1
    std::vector<CellAmount> line;     // sums to 1
    bool whole_pasture = false;       // nothing then falls near a line
};

// Lines: residue in the rig's cross profile; a patch: evenly over its cells in the mask; points: an
// equal part each. Parts outside go to the nearest cell inside, so no mass is lost. No shape: the
// whole pasture. The ground must have a cell.
[[nodiscard]] LayingPlaces laying_places(const Laying& laying, const PastureGround& ground);

}  // namespace haylane
