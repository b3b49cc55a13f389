#include "core/plan/ground_limits.h"

#include "core/deposit/evenness.h"
#include "core/plan/spoken.h"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

namespace haylane {

std::vector<NutrientLimit> limits_of(const Pasture& pasture) {
    std::vector<NutrientLimit> limits;
    const auto add = [&](Measure measure, const std::optional<double>& kg_per_m2) {
        if (kg_per_m2) limits.push_back({measure, *kg_per_m2});
    };
    add(Measure::n, pasture.limit.n_kg_per_m2);
    add(Measure::p2o5, pasture.limit.p2o5_kg_per_m2);
    add(Measure::k2o, pasture.limit.k2o_kg_per_m2);
    return limits;
}

double of_measure(const Nutrients& amounts, Measure measure) {
    if (measure == Measure::n) return amounts.n_kg;
    return measure == Measure::k2o ? amounts.k2o_kg : amounts.p2o5_kg;
}

std::string spoken_measure(Measure measure) {
    if (measure == Measure::n) return "N";
    return measure == Measure::k2o ? "K2O" : "P2O5";
}

std::vector<Raster<double>> room_under_limits(const Pasture& pasture, const PastureLoad& load,
                                              const Raster<double>& elsewhere,
                                              const Nutrients& excreted, double window_m) {
    constexpr double kSlack = 1e-9;
    std::vector<Raster<double>> rooms;
    for (const NutrientLimit& limit : limits_of(pasture)) {
        Raster<double> there = layer(load.before, limit.measure);
        const double kg = of_measure(excreted, limit.measure);
        for (std::size_t c = 0; c < there.values.size(); ++c)
            there.values[c] += kg * elsewhere.values[c];
        Raster<double> room = through_window(load.ground, there, window_m);
        const double most_kg = limit.kg_per_m2 * room.grid.cell_area_m2();
        for (std::size_t c = 0; c < room.values.size(); ++c) {
            room.values[c] = load.ground.target.values[c] != 0
                                 ? std::max(0.0, most_kg - room.values[c]) + kSlack * most_kg
                                 : std::numeric_limits<double>::infinity();
        }
        rooms.push_back(std::move(room));
    }
    return rooms;
}

Problems over_limit_already(const Ranch& ranch, const PastureLoad& load) {
    Problems problems;
    const Pasture& pasture = ranch[load.ground.pasture];
    for (const NutrientLimit& limit : limits_of(pasture)) {
        const Raster<double> seen =
            through_window(load.ground, layer(load.before, limit.measure), ranch.settings.window_m);
        const double share = share_over(target_values(load.ground, seen),
                                        limit.kg_per_m2 * seen.grid.cell_area_m2());
        if (share <= 0.0) continue;
        problems.push_back(
            {"over_limit_already", Severity::warning, fmt::format("pasture {}", pasture.name),
             fmt::format("Past feedings left more {0} than the limit of {1} on {2} of the ground "
                         "that may be fed on. Lines keep off it; what falls near water and shelter "
                         "and around the pasture does not.",
                         spoken_measure(limit.measure),
                         spoken_rate(limit.kg_per_m2, ranch.settings), spoken_share(share)),
             "Feed this pasture less, or check the limit and the feedings on record."});
    }
    return problems;
}

}  // namespace haylane
