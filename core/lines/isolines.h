#pragma once
// Lines of equal value through a raster of values at cell centres, linear between neighbours.
// Cells without a value (not finite) break lines. Cost: linear in cells and in points made.

#include "core/geometry/polyline.h"
#include "core/geometry/raster.h"

#include <vector>

namespace haylane {

struct Isovalues {
    double first = 0.0;
    double step = 1.0;  // above 0
    int count = 1;
};

// For each value its lines, in a fixed order, higher ground to the left. A ring repeats its first
// point. A centre exactly at the value counts as above it, so points may repeat there.
[[nodiscard]] std::vector<MultiPolyline> isolines(const Raster<double>& raster,
                                                  const Isovalues& values);

}  // namespace haylane
