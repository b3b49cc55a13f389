#pragma once
// Chooses one way to lay each feeding so that the ground ends up even at little haul: greedy by the
// adjoint field, then swaps, with a proven lower bound. Deterministic for any number of threads.

#include "core/base/day.h"
#include "core/base/progress.h"
#include "core/deposit/pasture_ground.h"
#include "core/deposit/spread.h"
#include "core/lines/candidate_lines.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <cstdint>
#include <stop_token>
#include <vector>

namespace haylane {

// Ground of one pasture for the choice; all rasters on ground->mask.grid.
struct ChoiceGround {
    const PastureGround* ground = nullptr;
    Raster<double> load_kg;  // objective measure already there, kg per cell, before the window
    int group = 0;           // pastures that share herds: one target level a group
    // By limited nutrient: what lines may still add to each cell, kg through the window; infinity
    // where no limit is judged.
    std::vector<Raster<double>> room_kg = {};
    Raster<double> need_ratio = {};  // by soil test, of the pasture's weight; empty = 1 everywhere
};

// Mass of the objective measure that one feeding puts down.
struct ChoiceMass {
    double residue_kg = 0.0;      // along the lines, in the rig's cross profile
    double line_kg = 0.0;         // dung and urine near the lines
    Raster<double> elsewhere_kg;  // water, shelter and rest share, kg per cell; same whatever line
};

// Mass of a limited nutrient that one feeding's lines put down.
struct LineMass {
    double residue_kg = 0.0;
    double line_kg = 0.0;
};

// One feeding to place. Options of one herd's feedings share the same candidates vector.
struct ChoiceFeeding {
    sys_days date;
    int ground = 0;  // index into grounds
    const std::vector<Candidate>* candidates = nullptr;
    std::vector<double> money;  // by candidate: haul cost (or time where no prices)
    ChoiceMass mass;
    const Rig* rig = nullptr;
    double wind_from_rad = -1.0;
    bool rest_ends = true;  // false: keeps off all that was fed on this season, whatever rest_days
    std::vector<LineMass> limited = {};  // one for each room of its ground
};

// A line on the ground that keeps new lines away: for rest_days from `laid`, or to the season's
// end.
struct RestingLine {
    int ground = 0;
    Polyline path;
    sys_days laid;
};

struct LineChoiceInput {
    std::vector<ChoiceGround> grounds;
    std::vector<ChoiceFeeding> feedings;  // by date, then herd
    std::vector<RestingLine> resting;
    double spacing_m = 12.0;
    int rest_days = 0;  // 0 = to the season's end
    double window_m = 10.0;
    double sigma_line_m = 6.0;
    double cost_weight_ratio = 0.05;
    std::uint64_t seed = 1;
    int threads = 0;
    int swap_rounds = 4;
    Progress progress;
    std::stop_token enough = {};  // set: no more improving
    [[nodiscard]] bool improves() const { return !progress.stopped() && !enough.stop_requested(); }
};

enum class Yielded { nothing, spacing, rest };

struct LineChoice {
    // Candidate index by feeding; -1 = no candidate, or none that keeps its ground's limits.
    std::vector<int> chosen;
    std::vector<Yielded> yielded;  // what gave way for it
    // By feeding: the candidate of least money among those that keep the limits and for which no
    // more would yield than for the chosen one, given the feedings before it; -1 = none.
    std::vector<int> nearest;
    Optimality optimality;   // order_cost left empty
    bool cut_short = false;  // `enough` was set before lines were improved to the end
};

// The grade with gap and gap_of_gain worked out from its objective, bound and j_ref.
[[nodiscard]] Optimality with_gaps(Optimality grade);

class LineRules;
class LoadLimits;
struct ChoiceModel;

[[nodiscard]] LineChoice choose_lines(const LineChoiceInput& input);
// The same with the input's model, rules and limits at hand.
[[nodiscard]] LineChoice choose_lines(const LineChoiceInput& input, const ChoiceModel& model,
                                      LineRules& rules, const LoadLimits& limits);

}  // namespace haylane
