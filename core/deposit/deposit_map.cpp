// Each laying becomes two lists of cells that sum to 1 (where residue lies, where near-line excreta
// are dropped); amounts go in by nutrient, then the near-line amounts are spread once a nutrient.
#include "core/deposit/deposit_map.h"

#include "core/base/require.h"
#include "core/deposit/around_rings.h"
#include "core/deposit/excreta_places.h"
#include "core/deposit/laying_places.h"

#include <utility>

namespace haylane {

namespace {

struct NutrientRasters {
    Raster<double> n;
    Raster<double> p2o5;
    Raster<double> k2o;
};

void add_nutrients(const std::vector<CellAmount>& cells, const Nutrients& amount, double share,
                   Raster<double>& n, Raster<double>& p2o5, Raster<double>& k2o) {
    add_cells(cells, amount.n_kg * share, n);
    add_cells(cells, amount.p2o5_kg * share, p2o5);
    add_cells(cells, amount.k2o_kg * share, k2o);
}

void add_scaled(const Raster<double>& from, double factor, Raster<double>& into) {
    for (std::size_t c = 0; c < into.values.size(); ++c) {
        into.values[c] += factor * from.values[c];
    }
}

}  // namespace

DepositMap empty_map(const PastureGround& ground) {
    const Grid& grid = ground.mask.grid;
    return {Raster<double>(grid), Raster<double>(grid), Raster<double>(grid), Raster<double>(grid),
            Raster<double>(grid)};
}

DepositMap deposit_map(const Ranch& ranch, const PastureGround& ground,
                       const std::vector<Laying>& layings) {
    DepositMap map = empty_map(ground);
    if (ground.cells == 0 || layings.empty()) return map;
    const ExcretaPlaces excreta = excreta_places(ranch, ground);
    const Raster<double> zero(ground.mask.grid);
    NutrientRasters near_line{zero, zero, zero};
    Nutrients excreted;
    for (const Laying& laying : layings) {
        const LayingPlaces places = laying_places(laying, ground);
        const DepositSplit& split = laying.split;
        add_cells(places.residue, split.residue_dm_kg, map.residue_dm_kg);
        add_cells(places.residue, laying.bales, map.bales);
        add_nutrients(places.residue, split.residue, 1.0, map.n_kg, map.p2o5_kg, map.k2o_kg);
        if (places.whole_pasture) {
            add_nutrients(places.line, split.excreted, excreta.line_ratio, map.n_kg, map.p2o5_kg,
                          map.k2o_kg);
        } else {
            add_nutrients(places.line, split.excreted, excreta.line_ratio, near_line.n,
                          near_line.p2o5, near_line.k2o);
        }
        excreted.n_kg += split.excreted.n_kg;
        excreted.p2o5_kg += split.excreted.p2o5_kg;
        excreted.k2o_kg += split.excreted.k2o_kg;
    }
    const Spread near(ground.mask, ranch.settings.sigma_line_m);
    add_scaled(near.forward(near_line.n), 1.0, map.n_kg);
    add_scaled(near.forward(near_line.p2o5), 1.0, map.p2o5_kg);
    add_scaled(near.forward(near_line.k2o), 1.0, map.k2o_kg);
    add_scaled(excreta.elsewhere, excreted.n_kg, map.n_kg);
    add_scaled(excreta.elsewhere, excreted.p2o5_kg, map.p2o5_kg);
    add_scaled(excreta.elsewhere, excreted.k2o_kg, map.k2o_kg);
    return map;
}

DepositMap sum(const DepositMap& a, const DepositMap& b) {
    require(a.n_kg.grid == b.n_kg.grid, "sum of deposit maps: grids differ");
    DepositMap total = a;
    add_scaled(b.n_kg, 1.0, total.n_kg);
    add_scaled(b.p2o5_kg, 1.0, total.p2o5_kg);
    add_scaled(b.k2o_kg, 1.0, total.k2o_kg);
    add_scaled(b.residue_dm_kg, 1.0, total.residue_dm_kg);
    add_scaled(b.bales, 1.0, total.bales);
    return total;
}

double wind_from_rad_on(const Ranch& ranch, sys_days day) {
    const WeatherDay* weather = weather_on(ranch, day);
    return weather != nullptr ? weather->wind_from_rad.value_or(-1.0) : -1.0;
}

Laying laying_of(const Ranch& ranch, const FeedingRecord& feeding) {
    Laying laying;
    laying.shape = feeding.shape;
    laying.bales = feeding.bales;
    laying.split = excretion({.dm_offered_kg = feeding.bales * feeding.bale_dm_kg,
                              .quality = feeding.quality,
                              .waste_ratio = feeding.waste_ratio,
                              .intake_kg_per_head_day = feeding.intake_kg_per_head_day},
                             ranch.settings);
    const auto* places = std::get_if<std::vector<Point>>(&feeding.shape);
    if (places != nullptr && feeding.herd && ranch[*feeding.herd].fed_in == FedIn::ring)
        laying.shape = around_rings(*places);
    else if (feeding.rig)
        laying.rig = &ranch[*feeding.rig];
    if (feeding.from == feeding.to) laying.wind_from_rad = wind_from_rad_on(ranch, feeding.from);
    return laying;
}

const Raster<double>& layer(const DepositMap& map, Measure measure) {
    switch (measure) {
        case Measure::n:
            return map.n_kg;
        case Measure::p2o5:
            return map.p2o5_kg;
        case Measure::k2o:
            return map.k2o_kg;
        case Measure::residue:
            return map.residue_dm_kg;
        case Measure::bales:
            return map.bales;
    }
    return map.n_kg;
}

Raster<double> through_window(const PastureGround& ground, const Raster<double>& per_cell,
                              double window_m) {
    return Spread(ground.mask, window_m).forward(per_cell);
}

}  // namespace haylane
