// Shares of a feeding's days scale everything it left; hay and animal-days lie as residue does.
#include "core/season/season_map.h"

#include "core/deposit/laying_places.h"

namespace haylane {

namespace {

void scale(Nutrients& amounts, double share) {
    amounts.n_kg *= share;
    amounts.p2o5_kg *= share;
    amounts.k2o_kg *= share;
}

Laying part_of(const Ranch& ranch, const FeedingRecord& feeding, double share) {
    Laying laying = laying_of(ranch, feeding);
    laying.bales *= share;
    laying.split.residue_dm_kg *= share;
    scale(laying.split.residue, share);
    scale(laying.split.excreted, share);
    return laying;
}

void add_raster(const Raster<double>& more, Raster<double>& into) {
    for (std::size_t c = 0; c < into.values.size(); ++c) into.values[c] += more.values[c];
}

}  // namespace

SeasonMap empty_season_map(const PastureGround& ground) {
    return {empty_map(ground), Raster<double>(ground.mask.grid), Raster<double>(ground.mask.grid)};
}

SeasonMap season_map(const Ranch& ranch, const PastureGround& ground, const Feedings& feedings,
                     const Span& span) {
    SeasonMap map = empty_season_map(ground);
    if (ground.cells == 0) return map;
    std::vector<Laying> layings;
    for (const FeedingRecord* feeding : feedings) {
        const double share = share_in(*feeding, span);
        if (share <= 0.0) continue;
        layings.push_back(part_of(ranch, *feeding, share));
        const double dm_kg = share * feeding->bales * feeding->bale_dm_kg;
        const double eaten_kg = dm_kg - layings.back().split.residue_dm_kg;
        const LayingPlaces places = laying_places(layings.back(), ground);
        add_cells(places.residue, dm_kg, map.hay_dm_kg);
        if (feeding->intake_kg_per_head_day > 0.0)
            add_cells(places.residue, eaten_kg / feeding->intake_kg_per_head_day, map.animal_days);
    }
    map.deposit = deposit_map(ranch, ground, layings);
    return map;
}

void add_map(const SeasonMap& map, SeasonMap& into) {
    add_raster(map.deposit.n_kg, into.deposit.n_kg);
    add_raster(map.deposit.p2o5_kg, into.deposit.p2o5_kg);
    add_raster(map.deposit.k2o_kg, into.deposit.k2o_kg);
    add_raster(map.deposit.residue_dm_kg, into.deposit.residue_dm_kg);
    add_raster(map.deposit.bales, into.deposit.bales);
    add_raster(map.hay_dm_kg, into.hay_dm_kg);
    add_raster(map.animal_days, into.animal_days);
}

const Raster<double>& layer(const SeasonMap& map, SeasonMeasure measure) {
    switch (measure) {
        case SeasonMeasure::n:
            return map.deposit.n_kg;
        case SeasonMeasure::p2o5:
            return map.deposit.p2o5_kg;
        case SeasonMeasure::k2o:
            return map.deposit.k2o_kg;
        case SeasonMeasure::residue:
            return map.deposit.residue_dm_kg;
        case SeasonMeasure::hay:
            return map.hay_dm_kg;
        case SeasonMeasure::animal_days:
            return map.animal_days;
        case SeasonMeasure::bales:
            return map.deposit.bales;
    }
    return map.deposit.n_kg;
}

}  // namespace haylane
