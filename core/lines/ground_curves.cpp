#include "core/lines/ground_curves.h"

#include "core/lines/boundary_lines.h"
#include "core/lines/contour_lines.h"

#include <utility>

namespace haylane {

GroundCurves curves_on(const FeedableGround& ground, double line_radius_m, double spacing_m,
                       int threads) {
    GroundCurves curves;
    if (line_radius_m <= 0.0) return curves;
    if (auto rings = boundary_curves(ground, line_radius_m, spacing_m, threads))
        curves.boundary = std::move(*rings);
    curves.contour = contour_curves(ground, line_radius_m, spacing_m, threads);
    return curves;
}

}  // namespace haylane
