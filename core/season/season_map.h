#pragma once
// Where what a pasture's feedings of a span left lies: the deposit maps, and beside them where hay
// was laid and eaten. Ranch frame; kg, bales or animal-days a cell. Mass is kept to 1e-9 relative,
// inside the fence; the result does not depend on the order of the records. Linear in feedings.

#include "core/deposit/deposit_map.h"
#include "core/season/ledger.h"
#include "core/season/season_measure.h"

namespace haylane {

struct SeasonMap {
    DepositMap deposit;
    Raster<double> hay_dm_kg;    // hay laid, as dry matter
    Raster<double> animal_days;  // where they ate: as hay lies
};

[[nodiscard]] SeasonMap empty_season_map(const PastureGround& ground);
// Feedings of this pasture only, as feedings_by_pasture gives them.
[[nodiscard]] SeasonMap season_map(const Ranch& ranch, const PastureGround& ground,
                                   const Feedings& feedings, const Span& span);
// into += map, on the same grid.
void add_map(const SeasonMap& map, SeasonMap& into);
[[nodiscard]] const Raster<double>& layer(const SeasonMap& map, SeasonMeasure measure);

}  // namespace haylane
