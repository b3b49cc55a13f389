// Straight from the definition; the choice itself works with differences and is checked by this.
#include "core/plan/plan_objective.h"

#include <algorithm>
#include <cmath>

namespace haylane {

std::vector<Raster<double>> residuals(const ChoiceModel& model, const std::vector<int>& chosen) {
    std::vector<Raster<double>> result;
    for (const GroundModel& ground : model.grounds) result.push_back(ground.fixed_kg);
    for (std::size_t f = 0; f < chosen.size(); ++f) {
        if (chosen[f] < 0) continue;
        add_band(laid_kg(model, f, static_cast<std::size_t>(chosen[f])), 1.0,
                 result[model.feedings[f].ground]);
    }
    return result;
}

std::vector<Raster<double>> residuals(const ChoiceModel& model, const LineChoiceInput& input,
                                      const std::vector<Candidate>& laid) {
    std::vector<Raster<double>> result;
    for (const GroundModel& ground : model.grounds) result.push_back(ground.fixed_kg);
    for (std::size_t f = 0; f < laid.size(); ++f) {
        if (laid[f].lines.empty()) continue;
        const std::size_t g = model.feedings[f].ground;
        add_band(laid_kg(model.grounds[g], laid_cells(model, input, f, laid[f])), 1.0, result[g]);
    }
    return result;
}

double square_of(const ChoiceModel& model, const std::vector<Raster<double>>& residual) {
    double sum = 0.0;
    for (std::size_t g = 0; g < residual.size(); ++g)
        sum += square_of(model.grounds[g], residual[g]);
    return sum;
}

double cv_of(const ChoiceModel& model, const std::vector<Raster<double>>& residual) {
    double area = 0.0;
    double mass = 0.0;
    double squares = 0.0;  // area x density^2
    for (std::size_t g = 0; g < residual.size(); ++g) {
        const GroundModel& ground = model.grounds[g];
        const double cell_area = ground.ground->mask.grid.cell_area_m2();
        for (std::size_t c = 0; c < residual[g].values.size(); ++c) {
            if (ground.ground->target.values[c] == 0) continue;
            const double kg = residual[g].values[c] + ground.level_kg.values[c];
            area += cell_area;
            mass += kg;
            squares += kg * kg / cell_area;
        }
    }
    if (area <= 0.0 || mass <= 0.0) return 0.0;
    const double mean = mass / area;
    return std::sqrt(std::max(0.0, squares / area - mean * mean)) / mean;
}

double plan_objective(const ChoiceModel& model, const std::vector<int>& chosen) {
    double objective = square_of(model, residuals(model, chosen));
    for (std::size_t f = 0; f < chosen.size(); ++f) {
        if (chosen[f] >= 0) {
            objective += model.feedings[f].cost[static_cast<std::size_t>(chosen[f])];
        }
    }
    return objective;
}

double plan_cv(const ChoiceModel& model, const std::vector<int>& chosen) {
    return cv_of(model, residuals(model, chosen));
}

}  // namespace haylane
