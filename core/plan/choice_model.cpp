// The deposit of a line is linear in its mass, so a candidate's energy is a quadratic form in
// (residue, near-line) mass with three numbers a shape. A shape depends on the rig and on the side
// the tail falls, not on the day, and is shared by all feedings with the same candidates.
#include "core/plan/choice_model.h"

#include "core/base/parallel.h"
#include "core/base/require.h"
#include "core/deposit/around_rings.h"
#include "core/deposit/cross_profile.h"
#include "core/lines/ring_places.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <utility>

namespace haylane {

namespace {

// Everything about rig and wind that changes where the residue lies.
std::string tail_key(const Candidate& candidate, const Rig* rig, double wind_from_rad) {
    if (rig == nullptr) return {};
    std::string key;
    for (const CandidateLine& line : candidate.lines) {
        key += static_cast<char>('0' + static_cast<int>(tail_side(*rig, line.path, wind_from_rad)));
    }
    if (rig->method == Method::shred) key += wind_from_rad >= 0.0 ? 'w' : 's';
    return key;
}

template <class T>
int place_in(std::vector<T>& list, T item) {
    const auto at = std::find(list.begin(), list.end(), item);
    if (at != list.end()) return static_cast<int>(at - list.begin());
    list.push_back(item);
    return static_cast<int>(list.size()) - 1;
}

struct ShapeSource {
    const Candidate* candidate = nullptr;
    const Rig* rig = nullptr;
    double wind_from_rad = -1.0;
};

// Adds the products of two bands on target cells to their squares.
void add_products(const Band& a, const Band& b, const Raster<std::uint8_t>& target,
                  double ShapeEnergy::*part, std::vector<ShapeEnergy>& by_square) {
    const Squares squares(target.grid);
    const int end = std::min(a.row_end(), b.row_end());
    for (int j = std::max(a.first_row, b.first_row); j < end; ++j) {
        const int hi = std::min(a.run(j).hi, b.run(j).hi);
        int i = std::max(a.run(j).lo, b.run(j).lo);
        if (i >= hi) continue;
        const double* ra = a.row_values(j) - a.run(j).lo;
        const double* rb = b.row_values(j) - b.run(j).lo;
        const std::uint8_t* weight = target.values.data() + target.grid.at(0, j);
        while (i < hi) {
            const std::size_t square = squares.at(i, j);
            const int next = std::min(hi, (i / Squares::kSide_cells + 1) * Squares::kSide_cells);
            double sum = 0.0;
            for (; i < next; ++i) sum += weight[i] != 0 ? ra[i] * rb[i] : 0.0;
            by_square[square].*part += sum;
        }
    }
}

void split_energy(const Band& residue, const Band& line, const Raster<std::uint8_t>& target,
                  LaidShape& shape) {
    std::vector<ShapeEnergy> by_square(Squares(target.grid).count());
    add_products(residue, residue, target, &ShapeEnergy::residue, by_square);
    add_products(residue, line, target, &ShapeEnergy::cross, by_square);
    add_products(line, line, target, &ShapeEnergy::line, by_square);
    for (std::size_t s = 0; s < by_square.size(); ++s) {
        const ShapeEnergy& energy = by_square[s];
        if (energy.residue == 0.0 && energy.line == 0.0) continue;
        shape.squares.push_back({static_cast<std::uint32_t>(s), energy});
        shape.energy.residue += energy.residue;
        shape.energy.cross += energy.cross;
        shape.energy.line += energy.line;
    }
}

void fill_shape(const ShapeSource& source, const GroundModel& ground, LaidShape& shape) {
    const Grid& grid = ground.ground->mask.grid;
    LaidCells unit =
        unit_cells(*source.candidate, source.rig, source.wind_from_rad, *ground.ground);
    shape.residue = std::move(unit.residue);
    shape.line = std::move(unit.line);
    const Band residue = ground.window.forward(band_of(shape.residue, grid));
    const Band line = ground.window.forward(ground.line.forward(band_of(shape.line, grid)));
    const Raster<std::uint8_t>& target = ground.ground->target;
    split_energy(residue, line, target, shape);
}

// Gives every candidate of every feeding its shape; equal ones share.
std::vector<ShapeSource> assign_shapes(const LineChoiceInput& input, ChoiceModel& model) {
    using Key = std::tuple<int, int, std::size_t, std::size_t, std::string>;
    std::map<Key, std::size_t> known;
    std::vector<const std::vector<Candidate>*> sets;
    std::vector<const Rig*> rigs;
    std::vector<ShapeSource> sources;
    for (std::size_t f = 0; f < input.feedings.size(); ++f) {
        const ChoiceFeeding& feeding = input.feedings[f];
        if (feeding.candidates == nullptr) continue;
        const int set = place_in(sets, feeding.candidates);
        const int rig = place_in(rigs, feeding.rig);
        for (std::size_t c = 0; c < feeding.candidates->size(); ++c) {
            const Candidate& candidate = (*feeding.candidates)[c];
            const auto [at, fresh] =
                known.try_emplace(Key{set, rig, model.feedings[f].ground, c,
                                      tail_key(candidate, feeding.rig, feeding.wind_from_rad)},
                                  sources.size());
            if (fresh) {
                sources.push_back({&candidate, feeding.rig, feeding.wind_from_rad});
                model.shape_ground.push_back(model.feedings[f].ground);
            }
            model.feedings[f].shape.push_back(at->second);
        }
    }
    return sources;
}

double sum_on(const Raster<std::uint8_t>& weight, const Raster<double>& values) {
    double sum = 0.0;
    for (std::size_t c = 0; c < values.values.size(); ++c) {
        if (weight.values[c] != 0) sum += values.values[c];
    }
    return sum;
}

double sum_of(const Raster<double>& values) {
    double sum = 0.0;
    for (const double v : values.values) sum += v;
    return sum;
}

void add(const Raster<double>& from, Raster<double>& into) {
    for (std::size_t c = 0; c < into.values.size(); ++c) into.values[c] += from.values[c];
}

// L + sum G: the load there already and what feedings leave wherever their lines go.
Raster<double> fixed_load(const LineChoiceInput& input, std::size_t g, const Spread& window) {
    Raster<double> load(input.grounds[g].ground->mask.grid);
    if (!input.grounds[g].load_kg.values.empty()) add(input.grounds[g].load_kg, load);
    Raster<double> elsewhere(load.grid);
    for (const ChoiceFeeding& feeding : input.feedings) {
        if (static_cast<std::size_t>(feeding.ground) != g) continue;
        if (!feeding.mass.elsewhere_kg.values.empty()) add(feeding.mass.elsewhere_kg, elsewhere);
    }
    add(elsewhere, load);
    return window.forward(load);
}

// w(x): the pasture's weight, times the need by soil test.
Raster<double> weights(const ChoiceGround& choice) {
    Raster<double> weight = choice.need_ratio;
    if (weight.values.empty()) weight = Raster<double>(choice.ground->mask.grid, 1.0);
    for (double& value : weight.values) value *= choice.ground->weight_ratio;
    return weight;
}

// tau of each ground's group: kg a m2 of weighted target ground, so that sum a p T is the mass
// there already, and to come.
std::vector<double> target_levels(const LineChoiceInput& input, const ChoiceModel& model) {
    std::map<int, std::pair<double, double>> mass_and_area;
    for (std::size_t g = 0; g < input.grounds.size(); ++g) {
        const PastureGround& ground = *input.grounds[g].ground;
        auto& [mass, area] = mass_and_area[input.grounds[g].group];
        if (!input.grounds[g].load_kg.values.empty()) {
            mass +=
                sum_on(ground.target, model.grounds[g].window.forward(input.grounds[g].load_kg));
        }
        area += sum_on(ground.target, weights(input.grounds[g])) * ground.mask.grid.cell_area_m2();
        for (const ChoiceFeeding& feeding : input.feedings) {
            if (static_cast<std::size_t>(feeding.ground) != g) continue;
            mass +=
                feeding.mass.residue_kg + feeding.mass.line_kg + sum_of(feeding.mass.elsewhere_kg);
        }
    }
    std::vector<double> levels;
    for (const ChoiceGround& ground : input.grounds) {
        const auto& [mass, area] = mass_and_area[ground.group];
        levels.push_back(area > 0.0 ? mass / area : 0.0);
    }
    return levels;
}

void make_grounds(const LineChoiceInput& input, ChoiceModel& model) {
    for (const ChoiceGround& choice : input.grounds) {
        require(choice.ground != nullptr, "choice of lines: a ground is missing");
        const Raster<std::uint8_t>& mask = choice.ground->mask;  // NOLINT: not null, see above
        model.grounds.push_back({choice.ground, Spread(mask, input.sigma_line_m),
                                 Spread(mask, input.window_m), 0.0, Raster<double>(),
                                 Raster<double>()});
    }
    parallel_for(model.grounds.size(), model.threads, [&](std::size_t g) {
        model.grounds[g].fixed_kg = fixed_load(input, g, model.grounds[g].window);
    });
    const std::vector<double> levels = target_levels(input, model);
    double normalizer = 0.0;
    for (std::size_t g = 0; g < model.grounds.size(); ++g) {
        GroundModel& ground = model.grounds[g];
        const double area = ground.ground->mask.grid.cell_area_m2();
        ground.level_kg = weights(input.grounds[g]);
        for (std::size_t c = 0; c < ground.level_kg.values.size(); ++c) {
            double& level_kg = ground.level_kg.values[c];
            level_kg *= levels[g] * area;
            ground.fixed_kg.values[c] -= level_kg;
            if (ground.ground->target.values[c] != 0) normalizer += level_kg * level_kg / area;
        }
    }
    model.normalizer = normalizer > 0.0 ? normalizer : 1.0;
    for (GroundModel& ground : model.grounds) {
        ground.scale = 1.0 / (ground.ground->mask.grid.cell_area_m2() * model.normalizer);
    }
}

void make_costs(const LineChoiceInput& input, ChoiceModel& model) {
    double least = 0.0;
    for (std::size_t f = 0; f < input.feedings.size(); ++f) {
        const std::vector<double>& money = input.feedings[f].money;
        if (money.empty() || money.size() != model.feedings[f].candidates()) continue;
        least += *std::min_element(money.begin(), money.end());
    }
    if (least > 0.0) model.cost_per_money = input.cost_weight_ratio / least;
    for (std::size_t f = 0; f < input.feedings.size(); ++f) {
        std::vector<double>& cost = model.feedings[f].cost;
        cost.assign(model.feedings[f].candidates(), 0.0);
        const std::vector<double>& money = input.feedings[f].money;
        if (money.size() != cost.size()) continue;
        for (std::size_t c = 0; c < cost.size(); ++c) cost[c] = model.cost_per_money * money[c];
    }
}

// One walk along cells in a field.
double sum_in(const Raster<double>& field, const std::vector<CellAmount>& cells) {
    double sum = 0.0;
    for (const CellAmount& c : cells) sum += c.amount * field.values[c.cell];
    return sum;
}

}  // namespace

ChoiceModel choice_model(const LineChoiceInput& input) {
    ChoiceModel model;
    model.threads = input.threads;
    make_grounds(input, model);
    for (const ChoiceFeeding& feeding : input.feedings) {
        FeedingModel own;
        own.ground = static_cast<std::size_t>(feeding.ground);
        require(own.ground < model.grounds.size(), "choice of lines: a feeding without a ground");
        own.residue_kg = feeding.mass.residue_kg;
        own.line_kg = feeding.mass.line_kg;
        model.feedings.push_back(std::move(own));
    }
    const std::vector<ShapeSource> sources = assign_shapes(input, model);
    model.shapes.resize(sources.size());
    parallel_for(sources.size(), model.threads, [&](std::size_t s) {
        fill_shape(sources[s], model.grounds[model.shape_ground[s]], model.shapes[s]);
    });
    make_costs(input, model);
    return model;
}

FieldBands fields_at(const GroundModel& ground, const Band& residual_kg) {
    FieldBands fields;
    fields.residue =
        ground.window.adjoint(scaled(kept(residual_kg, ground.ground->target), ground.scale));
    fields.line = ground.line.adjoint(fields.residue);
    return fields;
}

ChoiceFields fields_at(const GroundModel& ground, const Raster<double>& residual_kg) {
    const FieldBands bands = fields_at(ground, band_of(residual_kg));
    const Grid& grid = residual_kg.grid;
    return {raster_of(bands.residue, grid), raster_of(bands.line, grid)};
}

Band laid_kg(const ChoiceModel& model, std::size_t feeding, std::size_t candidate) {
    const FeedingModel& own = model.feedings[feeding];
    const GroundModel& ground = model.grounds[own.ground];
    const LaidShape& shape = model.shapes[own.shape[candidate]];
    const Grid& grid = ground.ground->mask.grid;
    const Band residue = scaled(band_of(shape.residue, grid), own.residue_kg);
    const Band line = ground.line.forward(scaled(band_of(shape.line, grid), own.line_kg));
    return ground.window.forward(sum(residue, line));
}

LaidCells unit_cells(const Candidate& lines, const Rig* rig, double wind_from_rad,
                     const PastureGround& ground) {
    if (lines.in_rings) {
        const std::vector<CellAmount> cells = line_cells(around_rings(ring_places(lines)), ground);
        return {cells, cells};
    }
    const MultiPolyline paths = paths_of(lines);
    return {residue_cells(paths, rig, wind_from_rad, ground), line_cells(paths, ground)};
}

LaidCells laid_cells(const ChoiceModel& model, const LineChoiceInput& input, std::size_t feeding,
                     const Candidate& lines) {
    const FeedingModel& own = model.feedings[feeding];
    const PastureGround& ground = *model.grounds[own.ground].ground;
    const ChoiceFeeding& asked = input.feedings[feeding];
    LaidCells cells = unit_cells(lines, asked.rig, asked.wind_from_rad, ground);
    for (CellAmount& c : cells.residue) c.amount *= own.residue_kg;
    for (CellAmount& c : cells.line) c.amount *= own.line_kg;
    return cells;
}

Band laid_kg(const GroundModel& ground, const LaidCells& cells) {
    const Grid& grid = ground.ground->mask.grid;
    return ground.window.forward(
        sum(band_of(cells.residue, grid), ground.line.forward(band_of(cells.line, grid))));
}

double energy_of(const FeedingModel& feeding, const GroundModel& ground,
                 const ShapeEnergy& energy) {
    const double square = feeding.residue_kg * feeding.residue_kg * energy.residue +
                          2.0 * feeding.residue_kg * feeding.line_kg * energy.cross +
                          feeding.line_kg * feeding.line_kg * energy.line;
    return square * ground.scale;
}

double own_energy(const ChoiceModel& model, std::size_t feeding, std::size_t candidate) {
    const FeedingModel& own = model.feedings[feeding];
    const LaidShape& shape = model.shapes[own.shape[candidate]];
    return energy_of(own, model.grounds[own.ground], shape.energy);
}

double first_order(const ChoiceModel& model, const ChoiceFields& fields, std::size_t feeding,
                   std::size_t candidate) {
    const FeedingModel& own = model.feedings[feeding];
    const LaidShape& shape = model.shapes[own.shape[candidate]];
    return own.residue_kg * sum_in(fields.residue, shape.residue) +
           own.line_kg * sum_in(fields.line, shape.line);
}

double first_order(const ChoiceFields& fields, const LaidCells& cells) {
    return sum_in(fields.residue, cells.residue) + sum_in(fields.line, cells.line);
}

double change_of(const ChoiceModel& model, const ChoiceFields& fields, std::size_t feeding,
                 std::size_t candidate) {
    return 2.0 * first_order(model, fields, feeding, candidate) +
           own_energy(model, feeding, candidate) + model.feedings[feeding].cost[candidate];
}

double square_of(const GroundModel& ground, const Raster<double>& u_kg) {
    double sum = 0.0;
    const std::vector<std::uint8_t>& target = ground.ground->target.values;
    for (std::size_t c = 0; c < target.size(); ++c) {
        if (target[c] != 0) sum += u_kg.values[c] * u_kg.values[c];
    }
    return sum * ground.scale;
}

}  // namespace haylane
