#pragma once
// Where dung and urine fall in one pasture, whatever the line: shares near water, at shelter and
// anywhere, already spread, for one kg excreted; what is left over falls near the line.

#include "core/deposit/pasture_ground.h"
#include "core/ranch/ranch.h"

namespace haylane {

struct ExcretaPlaces {
    double line_ratio = 0.0;   // share that falls near the line, to be spread by sigma_line
    Raster<double> elsewhere;  // per cell; sums to 1 - line_ratio
};

// The four shares of the settings, scaled to sum to 1 (all anywhere when they are all 0). Water or
// shelter that the pasture does not have gives its share to anywhere. Water points share equally;
// so do shelters, each evenly over its points, along its lines, or over its cells in the pasture.
// A ground without cells gives line_ratio 1 and nothing elsewhere.
[[nodiscard]] ExcretaPlaces excreta_places(const Ranch& ranch, const PastureGround& ground);

}  // namespace haylane
