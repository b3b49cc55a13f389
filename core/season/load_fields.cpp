// Everything is linear: load = residue x field + excreted x (line share x field + ...). Only the
// spread's width enters otherwise; it is taken in proportion between ready fields.
#include "core/season/load_fields.h"

#include "core/deposit/excreta_places.h"
#include "core/deposit/laying_places.h"
#include "core/season/load_figures.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace haylane {

namespace {

Ranch all_in(const Ranch& ranch, double Settings::*share) {
    Ranch variant;
    variant.settings = ranch.settings;
    variant.settings.share_line_ratio = 0.0;
    variant.settings.share_water_ratio = 0.0;
    variant.settings.share_shelter_ratio = 0.0;
    variant.settings.share_rest_ratio = 0.0;
    variant.settings.*share = 1.0;
    variant.pastures = ranch.pastures;
    variant.water = ranch.water;
    variant.shelter = ranch.shelter;
    return variant;
}

// Cells that are judged, thinned evenly when there are too many.
void choose_cells(const PastureGround& ground, std::size_t most_cells, LoadFields& fields) {
    const Raster<std::uint8_t>& judged = judged_cells(ground);
    const std::size_t all = ground.target_cells > 0 ? ground.target_cells : ground.cells;
    while (all > most_cells * static_cast<std::size_t>(fields.step) *
                     static_cast<std::size_t>(fields.step))
        ++fields.step;
    const int first = fields.step / 2;
    for (int j = first; j < judged.grid.ny; j += fields.step) {
        for (int i = first; i < judged.grid.nx; i += fields.step) {
            if (judged(i, j) != 0) fields.cells.push_back(judged.grid.at(i, j));
        }
    }
}

class Fields {
  public:
    Fields(const Ranch& ranch, const PastureGround& ground, LoadFields& into)
        : ground_(ground),
          window_(ground.mask, ranch.settings.window_m),
          near_{Spread(ground.mask, kSpreadNodes_m[0]), Spread(ground.mask, kSpreadNodes_m[1]),
                Spread(ground.mask, kSpreadNodes_m[2])},
          into_(into) {}

    [[nodiscard]] std::vector<float> seen(const Raster<double>& per_cell) const {
        const Raster<double> windowed = window_.forward(per_cell);
        std::vector<float> values;
        values.reserve(into_.cells.size());
        for (const std::size_t c : into_.cells)
            values.push_back(static_cast<float>(windowed.values[c] / windowed.grid.cell_area_m2()));
        return values;
    }
    [[nodiscard]] std::array<std::vector<float>, 3> seen_near(const Raster<double>& line,
                                                              const Raster<double>& even) const {
        std::array<std::vector<float>, 3> fields;
        for (std::size_t node = 0; node < fields.size(); ++node) {
            Raster<double> spread = near_[node].forward(line);
            for (std::size_t c = 0; c < spread.values.size(); ++c)
                spread.values[c] += even.values[c];
            fields[node] = seen(spread);
        }
        return fields;
    }
    [[nodiscard]] const PastureGround& ground() const { return ground_; }

  private:
    const PastureGround& ground_;
    Spread window_;
    std::array<Spread, 3> near_;
    LoadFields& into_;
};

using Members = std::vector<std::pair<const FeedingRecord*, double>>;  // with share in the span

// Hay of the group as one: DM-weighted means.
void add_hay(const FeedingRecord& feeding, double dm_kg, LoadGroup& group) {
    group.dm_kg += dm_kg;
    group.waste_ratio += dm_kg * feeding.waste_ratio;
    group.quality.cp_ratio += dm_kg * feeding.quality.cp_ratio;
    group.quality.p_ratio += dm_kg * feeding.quality.p_ratio;
    group.quality.k_ratio += dm_kg * feeding.quality.k_ratio;
    group.intake_kg_per_head_day += dm_kg * feeding.intake_kg_per_head_day;
}

LoadGroup group_of(const Ranch& ranch, const Members& members, const Fields& fields) {
    LoadGroup group;
    group.lot = members.front().first->lot;
    group.quality = {0.0, 0.0, 0.0, 0.0, false};
    const Grid& grid = fields.ground().mask.grid;
    Raster<double> residue(grid);
    Raster<double> line(grid);
    Raster<double> even(grid);
    for (const auto& [feeding, share] : members) {
        const double dm_kg = share * feeding->bales * feeding->bale_dm_kg;
        add_hay(*feeding, dm_kg, group);
        const LayingPlaces places = laying_places(laying_of(ranch, *feeding), fields.ground());
        add_cells(places.residue, dm_kg, residue);
        add_cells(places.line, dm_kg, places.whole_pasture ? even : line);
    }
    if (group.dm_kg <= 0.0) return group;
    for (double* mean : {&group.waste_ratio, &group.quality.cp_ratio, &group.quality.p_ratio,
                         &group.quality.k_ratio, &group.intake_kg_per_head_day})
        *mean /= group.dm_kg;
    for (Raster<double>* raster : {&residue, &line, &even}) {
        for (double& value : raster->values) value /= group.dm_kg;
    }
    group.residue = fields.seen(residue);
    group.line = fields.seen_near(line, even);
    return group;
}

// What a group's hay leaves under a draw.
DepositSplit drawn_split(const LoadGroup& group, const ParameterDraw& draw) {
    const LotFactors& factors = group.lot ? draw.lots[group.lot->index()] : draw.lots.back();
    ExcretionInput input{.dm_offered_kg = group.dm_kg * factors.bale_mass,
                         .quality = group.quality,
                         .waste_ratio = std::min(1.0, group.waste_ratio * draw.waste),
                         .intake_kg_per_head_day = group.intake_kg_per_head_day};
    input.quality.cp_ratio *= factors.cp;
    input.quality.p_ratio *= factors.p;
    input.quality.k_ratio *= factors.k;
    return excretion(input, draw.settings);
}

double nutrient_of(const Nutrients& amounts, SeasonMeasure nutrient) {
    if (nutrient == SeasonMeasure::n) return amounts.n_kg;
    return nutrient == SeasonMeasure::k2o ? amounts.k2o_kg : amounts.p2o5_kg;
}

void add_scaled(const std::vector<float>& field, double factor, std::vector<double>& into) {
    if (factor == 0.0 || field.empty()) return;
    for (std::size_t c = 0; c < into.size(); ++c) into[c] += factor * static_cast<double>(field[c]);
}

// The lower node and the weight of the one above.
std::pair<std::size_t, double> between_nodes(double sigma_m) {
    const std::size_t low = sigma_m < kSpreadNodes_m[1] ? 0 : 1;
    const double width = kSpreadNodes_m[low + 1] - kSpreadNodes_m[low];
    return {low, std::clamp((sigma_m - kSpreadNodes_m[low]) / width, 0.0, 1.0)};
}

}  // namespace

PlaceRanches::PlaceRanches(const Ranch& ranch)
    : water(all_in(ranch, &Settings::share_water_ratio)),
      shelter(all_in(ranch, &Settings::share_shelter_ratio)),
      rest(all_in(ranch, &Settings::share_rest_ratio)) {}

LoadFields load_fields(const Ranch& ranch, const PlaceRanches& places, const PastureGround& ground,
                       const Feedings& feedings, const Span& span, std::size_t most_cells) {
    LoadFields result;
    if (ground.cells == 0) return result;
    choose_cells(ground, most_cells, result);
    const Fields fields(ranch, ground, result);
    std::map<std::pair<std::optional<LotId>, std::optional<RigId>>, Members> groups;
    for (const FeedingRecord* feeding : feedings) {
        const double share = share_in(*feeding, span);
        if (share > 0.0) groups[{feeding->lot, feeding->rig}].emplace_back(feeding, share);
    }
    for (const auto& [key, members] : groups)
        result.groups.push_back(group_of(ranch, members, fields));
    if (result.groups.empty()) return result;
    result.water = fields.seen(excreta_places(places.water, ground).elsewhere);
    result.shelter = fields.seen(excreta_places(places.shelter, ground).elsewhere);
    result.rest = fields.seen(excreta_places(places.rest, ground).elsewhere);
    return result;
}

DrawnLedger drawn_ledger(const LoadFields& fields, const ParameterDraw& draw) {
    DrawnLedger total;
    for (const LoadGroup& group : fields.groups) {
        const DepositSplit split = drawn_split(group, draw);
        total.on_ground.n_kg += split.residue.n_kg + split.excreted.n_kg;
        total.on_ground.p2o5_kg += split.residue.p2o5_kg + split.excreted.p2o5_kg;
        total.on_ground.k2o_kg += split.residue.k2o_kg + split.excreted.k2o_kg;
        total.residue_dm_kg += split.residue_dm_kg;
        total.n_lost_gas_kg += split.n_lost_gas_kg;
        total.n_pools.residue_n_kg += split.residue.n_kg;
        total.n_pools.dung_n_kg += split.dung_n_kg;
        total.n_pools.urine_n_kg += split.urine_n_kg;
        const LotFactors& factors = group.lot ? draw.lots[group.lot->index()] : draw.lots.back();
        if (group.intake_kg_per_head_day > 0.0)
            total.animal_days += (group.dm_kg * factors.bale_mass - split.residue_dm_kg) /
                                 group.intake_kg_per_head_day;
    }
    return total;
}

std::vector<double> drawn_load(const LoadFields& fields, const ParameterDraw& draw,
                               SeasonMeasure nutrient) {
    std::vector<double> load(fields.cells.size(), 0.0);
    const Settings& s = draw.settings;
    const double shares =
        s.share_line_ratio + s.share_water_ratio + s.share_shelter_ratio + s.share_rest_ratio;
    // As excreta_places: all anywhere when nothing is shared out.
    const double line_ratio = shares > 0.0 ? s.share_line_ratio / shares : 0.0;
    const auto [low, weight] = between_nodes(s.sigma_line_m);
    double excreted_kg = 0.0;
    for (const LoadGroup& group : fields.groups) {
        const DepositSplit split = drawn_split(group, draw);
        const double kg = nutrient_of(split.excreted, nutrient);
        add_scaled(group.residue, nutrient_of(split.residue, nutrient), load);
        add_scaled(group.line[low], kg * line_ratio * (1.0 - weight), load);
        add_scaled(group.line[low + 1], kg * line_ratio * weight, load);
        excreted_kg += kg;
    }
    const double each = shares > 0.0 ? excreted_kg / shares : 0.0;
    add_scaled(fields.water, each * s.share_water_ratio, load);
    add_scaled(fields.shelter, each * s.share_shelter_ratio, load);
    add_scaled(fields.rest, shares > 0.0 ? each * s.share_rest_ratio : excreted_kg, load);
    return load;
}

}  // namespace haylane
