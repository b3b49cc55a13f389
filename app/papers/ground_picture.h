#pragma once
// Loads of one pasture thinned for a picture on paper.

#include "core/base/ids.h"
#include "core/geometry/raster.h"

namespace haylane {

// Amounts a m2 of the measure shown, through the window, NaN outside the pasture. At most a few
// hundred cells a side.
struct GroundPicture {
    PastureId pasture;
    Raster<float> shown_per_m2;
    Raster<float> change_per_m2;  // less the season before; empty where there is none
    Raster<float> chance_over;    // of being over a limit; empty without limits or draws
};

}  // namespace haylane
