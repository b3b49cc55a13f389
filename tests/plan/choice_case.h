#pragma once
// Small choices of lines made by hand or at random, and the best of all their plans by trying each.

#include "core/base/random.h"
#include "core/deposit/walk.h"
#include "core/plan/choice_model.h"
#include "core/plan/line_rules.h"
#include "core/plan/load_room.h"
#include "core/plan/plan_objective.h"
#include "tests/deposit/made_ground.h"

#include <chrono>
#include <limits>
#include <memory>
#include <vector>

namespace haylane::testing {

inline Candidate one_line(Point a, Point b) {
    CandidateLine line;
    line.path = {a, b};
    line.length_m = distance_m(a, b);
    line.bales = 1;
    return {{line}};
}

// Owns what an input only points at.
struct Case {
    std::vector<std::unique_ptr<PastureGround>> grounds;
    std::vector<std::unique_ptr<std::vector<Candidate>>> sets;
    Rig rig;
    LineChoiceInput input;
};

inline sys_days day(int n) {
    return sys_days{std::chrono::year{2027} / 1 / 1} + std::chrono::days{n};
}

inline ChoiceFeeding feeding_on(const Case& c, std::size_t ground, int date, double mass_kg) {
    ChoiceFeeding feeding;
    feeding.date = day(date);
    feeding.ground = static_cast<int>(ground);
    feeding.candidates = c.sets[ground].get();
    feeding.mass.residue_kg = 0.4 * mass_kg;
    feeding.mass.line_kg = 0.6 * mass_kg;
    feeding.rig = &c.rig;
    return feeding;
}

// `grounds` ragged pastures of about 150 m, each with `candidates` random lines.
inline std::unique_ptr<Case> random_case(std::uint64_t seed, std::size_t grounds, int candidates,
                                         int feedings) {
    Random random(seed);
    auto made = std::make_unique<Case>();
    made->rig.method = Method::shred;
    made->rig.discharge = Discharge::right;
    for (std::size_t g = 0; g < grounds; ++g) {
        const Grid grid{0.0, 0.0, 3.0, 48, 52};
        made->grounds.push_back(std::make_unique<PastureGround>(ragged_ground(grid, 0.93, random)));
        auto set = std::make_unique<std::vector<Candidate>>();
        for (int c = 0; c < candidates; ++c) {
            const Point a{140.0 * random.uniform(), 150.0 * random.uniform()};
            const Point b{140.0 * random.uniform(), 150.0 * random.uniform()};
            set->push_back(one_line(a, b));
        }
        made->sets.push_back(std::move(set));
        Raster<double> load(grid);
        for (std::size_t n = 0; n < load.values.size(); ++n) {
            if (made->grounds[g]->mask.values[n] != 0) load.values[n] = 0.002 * random.uniform();
        }
        made->input.grounds.push_back({made->grounds[g].get(), load, 0});
    }
    for (int f = 0; f < feedings; ++f) {
        const std::size_t g = static_cast<std::size_t>(f) % grounds;
        ChoiceFeeding feeding = feeding_on(*made, g, f, 2.0 + random.uniform());
        feeding.wind_from_rad = f % 2 == 0 ? -1.0 : 6.0 * random.uniform();
        for (int c = 0; c < candidates; ++c) feeding.money.push_back(1.0 + random.uniform());
        feeding.mass.elsewhere_kg = Raster<double>(made->grounds[g]->mask.grid);
        feeding.mass.elsewhere_kg.values[nearest_cell({70.0, 70.0}, *made->grounds[g])] = 0.3;
        made->input.feedings.push_back(std::move(feeding));
    }
    made->input.spacing_m = 0.0;
    made->input.threads = 1;
    return made;
}

// Every combination that keeps spacing and limits; nothing is skipped.
struct BruteForce {
    double objective = std::numeric_limits<double>::infinity();
    double cv = std::numeric_limits<double>::infinity();
    std::vector<int> chosen;
    int plans = 0;
};

inline BruteForce brute_force(const ChoiceModel& model, const LineRules& rules,
                              const LoadLimits& limits) {
    BruteForce best;
    std::vector<int> chosen(model.feedings.size(), 0);
    while (true) {
        bool legal = true;
        LoadRoom room(limits);
        for (std::size_t f = 0; f < chosen.size(); ++f) {
            const auto c = static_cast<std::size_t>(chosen[f]);
            legal = legal && rules.of(f, c, chosen, f) == Clearance::clear && room.holds(f, c);
            if (!legal) break;
            room.add(f, c, 1.0);
        }
        if (legal) {
            ++best.plans;
            const double objective = plan_objective(model, chosen);
            best.cv = std::min(best.cv, plan_cv(model, chosen));
            if (objective < best.objective) {
                best.objective = objective;
                best.chosen = chosen;
            }
        }
        std::size_t f = 0;
        while (f < chosen.size()) {
            if (++chosen[f] < static_cast<int>(model.feedings[f].candidates())) break;
            chosen[f++] = 0;
        }
        if (f == chosen.size()) return best;
    }
}

// Parallel lines 6 m apart, from x = 6.
inline std::unique_ptr<Case> ladder(int rungs, int feedings) {
    auto made = std::make_unique<Case>();
    made->grounds.push_back(
        std::make_unique<PastureGround>(full_ground(Grid{0.0, 0.0, 3.0, 60, 50})));
    auto set = std::make_unique<std::vector<Candidate>>();
    for (int k = 0; k < rungs; ++k) {
        set->push_back(one_line({6.0 + 6.0 * k, 20.0}, {6.0 + 6.0 * k, 130.0}));
    }
    made->sets.push_back(std::move(set));
    made->input.grounds.push_back(
        {made->grounds[0].get(), Raster<double>(made->grounds[0]->mask.grid), 0});
    for (int f = 0; f < feedings; ++f) made->input.feedings.push_back(feeding_on(*made, 0, f, 2.0));
    made->input.threads = 1;
    return made;
}

}  // namespace haylane::testing
