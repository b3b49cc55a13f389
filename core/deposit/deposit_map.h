#pragma once
// The map of what feedings leave in one pasture: exact line lengths in cells, cross profile of the
// rig for residue, near-line, water, shelter and rest shares for dung and urine. Mass conserved.

#include <vector>

#include "core/deposit/excretion.h"
#include "core/deposit/pasture_ground.h"
#include "core/deposit/spread.h"
#include "core/ranch/ranch.h"

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
    std::variant<std::monostate, MultiPolyline, MultiPolygon, std::vector<Point>> shape;  // none = whole pasture
    DepositSplit split;
    double bales = 0.0;
    const Rig* rig = nullptr;  // cross profile; null = one strip
    double wind_from_rad = -1.0;  // < 0: no wind known
};

[[nodiscard]] DepositMap empty_map(const PastureGround& ground);
// Adds the layings; linear in feedings, one spread for all of them.
[[nodiscard]] DepositMap deposit_map(const Ranch& ranch, const PastureGround& ground,
                                     const std::vector<Laying>& layings);
// map a + map b on the same grid.
[[nodiscard]] DepositMap sum(const DepositMap& a, const DepositMap& b);
// A recorded feeding as a laying.
[[nodiscard]] Laying laying_of(const Ranch& ranch, const FeedingRecord& feeding);

// Exact length (m) of a line in each cell it passes, added times kg_per_m; parts outside the mask go
// to the nearest inside cell.
void walk_line(const Polyline& line, double kg_per_m, const PastureGround& ground,
               Raster<double>& into);

}  // namespace haylane
