// What a line leaves is linear in its mass, so one pair of unit deposits serves every limited
// nutrient. All deposits are at least 0: lines that do not fit alone never fit with others, and are
// found once.
#include "core/plan/load_room.h"

#include "core/base/parallel.h"
#include "core/base/require.h"
#include "core/deposit/cross_profile.h"

#include <map>
#include <utility>

namespace haylane {

namespace {

UnitLaid through_window(const GroundModel& ground, const std::vector<CellAmount>& residue,
                        const std::vector<CellAmount>& line) {
    const Grid& grid = ground.ground->mask.grid;
    return {ground.window.forward(band_of(residue, grid)),
            ground.window.forward(ground.line.forward(band_of(line, grid)))};
}

bool within(const Band& added, const Raster<double>& room) {
    for (int j = added.first_row; j < added.row_end(); ++j) {
        const Band::Run& run = added.run(j);
        if (run.hi <= run.lo) continue;
        const double* own = added.row_values(j);
        const double* most = room.values.data() + room.grid.at(run.lo, j);
        for (int i = 0; i < run.hi - run.lo; ++i) {
            if (own[i] > most[i]) return false;
        }
    }
    return true;
}

bool within(const UnitLaid& laid, const std::vector<LineMass>& masses,
            const std::vector<Raster<double>>& rooms) {
    for (std::size_t n = 0; n < rooms.size(); ++n) {
        const Band added =
            sum(scaled(laid.residue, masses[n].residue_kg), scaled(laid.line, masses[n].line_kg));
        if (!within(added, rooms[n])) return false;
    }
    return true;
}

}  // namespace

LoadLimits::LoadLimits(const LineChoiceInput& input, const ChoiceModel& model)
    : input_(&input), model_(&model), alone_(input.feedings.size()) {
    for (std::size_t f = 0; f < input.feedings.size(); ++f) {
        const std::size_t limits = input.grounds[model.feedings[f].ground].room_kg.size();
        require(input.feedings[f].limited.size() == limits,
                "choice of lines: a limited feeding without its masses");
    }
    find_alone();
}

bool LoadLimits::limited(std::size_t feeding) const {
    return !input_->grounds[model_->feedings[feeding].ground].room_kg.empty();
}

UnitLaid LoadLimits::unit_laid(std::size_t feeding, std::size_t candidate) const {
    const FeedingModel& own = model_->feedings[feeding];
    const LaidShape& shape = model_->shapes[own.shape[candidate]];
    return through_window(model_->grounds[own.ground], shape.residue, shape.line);
}

UnitLaid LoadLimits::unit_laid(std::size_t feeding, const Candidate& lines) const {
    const GroundModel& ground = model_->grounds[model_->feedings[feeding].ground];
    const ChoiceFeeding& asked = input_->feedings[feeding];
    const LaidCells cells = unit_cells(lines, asked.rig, asked.wind_from_rad, *ground.ground);
    return through_window(ground, cells.residue, cells.line);
}

// Feedings of the same mass share the answer for a shape.
void LoadLimits::find_alone() {
    using Key = std::pair<std::size_t, std::vector<std::pair<double, double>>>;
    std::map<Key, std::size_t> known;
    std::vector<std::pair<std::size_t, std::size_t>> asked;  // feeding and candidate
    std::vector<std::vector<std::size_t>> answer(alone_.size());
    for (std::size_t f = 0; f < alone_.size(); ++f) {
        if (!limited(f)) continue;
        std::vector<std::pair<double, double>> masses;
        for (const LineMass& mass : input_->feedings[f].limited)
            masses.emplace_back(mass.residue_kg, mass.line_kg);
        for (std::size_t c = 0; c < model_->feedings[f].candidates(); ++c) {
            const auto [at, fresh] =
                known.try_emplace({model_->feedings[f].shape[c], masses}, asked.size());
            if (fresh) asked.emplace_back(f, c);
            answer[f].push_back(at->second);
        }
    }
    std::vector<char> fits(asked.size());
    parallel_for(asked.size(), model_->threads, [&](std::size_t n) {
        const auto [f, c] = asked[n];
        fits[n] = within(unit_laid(f, c), input_->feedings[f].limited,
                         input_->grounds[model_->feedings[f].ground].room_kg)
                      ? 1
                      : 0;
    });
    for (std::size_t f = 0; f < alone_.size(); ++f) {
        for (const std::size_t n : answer[f]) alone_[f].push_back(fits[n]);
    }
}

LoadRoom::LoadRoom(const LoadLimits& limits) : limits_(&limits) {
    for (const ChoiceGround& ground : limits.input_->grounds) room_kg_.push_back(ground.room_kg);
}

bool LoadRoom::holds(std::size_t feeding, const UnitLaid& laid) const {
    return within(laid, limits_->input_->feedings[feeding].limited,
                  room_kg_[limits_->model_->feedings[feeding].ground]);
}

bool LoadRoom::holds(std::size_t feeding, std::size_t candidate) const {
    if (!limits_->limited(feeding)) return true;
    return limits_->fits_alone(feeding, candidate) &&
           holds(feeding, limits_->unit_laid(feeding, candidate));
}

void LoadRoom::add(std::size_t feeding, const UnitLaid& laid, double factor) {
    const std::vector<LineMass>& masses = limits_->input_->feedings[feeding].limited;
    std::vector<Raster<double>>& rooms = room_kg_[limits_->model_->feedings[feeding].ground];
    for (std::size_t n = 0; n < rooms.size(); ++n) {
        add_band(laid.residue, -factor * masses[n].residue_kg, rooms[n]);
        add_band(laid.line, -factor * masses[n].line_kg, rooms[n]);
    }
}

void LoadRoom::add(std::size_t feeding, std::size_t candidate, double factor) {
    if (limits_->limited(feeding)) add(feeding, limits_->unit_laid(feeding, candidate), factor);
}

}  // namespace haylane
