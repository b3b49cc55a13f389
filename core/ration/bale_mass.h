#pragma once
// Mass of a round bale from its size and density, where no scale weight is known. m, kg, kg/m3; the
// density and the mass are both as fed or both DM. Sizes are width (along the core) and diameter.

#include "core/base/units.h"

namespace haylane {

[[nodiscard]] constexpr double bale_volume_m3(double width_m, double diameter_m) {
    return units::kPi / 4.0 * diameter_m * diameter_m * width_m;
}

[[nodiscard]] constexpr double bale_mass_kg(double width_m, double diameter_m,
                                            double density_kg_per_m3) {
    return bale_volume_m3(width_m, diameter_m) * density_kg_per_m3;
}

}  // namespace haylane
