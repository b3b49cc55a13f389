#pragma once
// The map of what feedings leave in one pasture: exact line lengths in cells, cross profile of the
// rig for residue, near-line, water, shelter and rest shares for dung and urine. Ranch frame, kg.
// Mass conserved to 1e-9 relative, inside the fence only; a ground without cells takes nothing.

#include "core/deposit/excretion.h"
#include "core/deposit/pasture_ground.h"
#include "core/deposit/spread.h"
#include "core/deposit/walk.h"
#include "core/ranch/ranch.h"

#include <variant>
#include <vector>

namespace haylane {

enum class Measure { n, p2o5, k2o, residue, bales };

// kg (or bales) per cell.
struct DepositMap {
    Raster<double> n_kg;
    Raster<double> p2o5_kg;
    Raster<double> k2o_kg;
    Raster<double> residue_dm_kg;
    Raster<double> bales;
};

// One feeding ready to be laid on the ground.
struct Laying {
    std::variant<std::monostate, MultiPolyline, MultiPolygon, std::vector<Point>>
        shape;  // none = whole pasture
    DepositSplit split;
    double bales = 0.0;
    const Rig* rig = nullptr;        // cross profile; null = one strip
    double wind_from_rad = -1.0;     // < 0: no wind known
    double fines_share_ratio = 0.0;  // of the residue: blown off the line as fines
};

[[nodiscard]] DepositMap empty_map(const PastureGround& ground);
// All layings together; linear in feedings, one spread a nutrient for all of them. Lines: residue
// and bales in the rig's cross profile. Polygons: evenly over their cells in the mask. Points: an
// equal part each, in the point's cell. Whole pasture: evenly; no share then falls near a line.
[[nodiscard]] DepositMap deposit_map(const Ranch& ranch, const PastureGround& ground,
                                     const std::vector<Laying>& layings);
// map a + map b on the same grid.
[[nodiscard]] DepositMap sum(const DepositMap& a, const DepositMap& b);
// Azimuth the wind comes from on a day, as a laying takes it: -1 when it is not known.
[[nodiscard]] double wind_from_rad_on(const Ranch& ranch, sys_days day);
// A recorded feeding as a laying, round its points where the herd is fed in rings; its wind is that
// of its day, if it is one day and known.
[[nodiscard]] Laying laying_of(const Ranch& ranch, const FeedingRecord& feeding);

// One band of the map.
[[nodiscard]] const Raster<double>& layer(const DepositMap& map, Measure measure);
// A layer as seen through a window of this sigma: what evenness and limits are judged on.
[[nodiscard]] Raster<double> through_window(const PastureGround& ground,
                                            const Raster<double>& per_cell, double window_m);

}  // namespace haylane
