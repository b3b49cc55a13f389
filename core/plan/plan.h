#pragma once
// A week plan: what to feed, where, by which way, and what it does. Plain values, SI, ranch frame.
// The meaning of each field is that of the plan.json key of the same name (docs/formats.md).

#include "core/base/day.h"
#include "core/base/ids.h"
#include "core/base/problem.h"
#include "core/geometry/polyline.h"
#include "core/ranch/check_ranch.h"
#include "core/ranch/settings.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct BaleDraw {
    LotId lot;
    YardId yard;
    int count = 0;
};

enum class LegKind { out, lay, back };

struct PlannedLeg {
    LegKind kind = LegKind::out;
    Polyline path;
    double length_m = 0.0;
    double time_s = 0.0;
    double fuel_l = 0.0;
    std::vector<std::string> via;  // gates and trails in the order passed
};

struct PlannedLoad {
    std::vector<std::string> line_ids;
    std::vector<BaleDraw> bales;  // all from `yard`
    int bale_count = 0;
    YardId yard;
    double distance_m = 0.0;
    double loaded_distance_m = 0.0;
    double time_s = 0.0;
    double fuel_l = 0.0;
    std::optional<double> cost;  // nullopt until prices are given
    std::vector<PlannedLeg> legs;
};

enum class LineShape { straight, curved };

struct PlannedLine {
    std::string id;
    LineShape shape = LineShape::straight;
    Polyline path;             // in driving order
    double heading_rad = 0.0;  // azimuth of the straight line from start to end
    double length_m = 0.0;
    int bales = 0;
    int order = 0;  // driving order within the feeding, from 1
    // Where its bales are set when the herd is fed in rings, in driving order; the line is then
    // only the row they stand in, and no hay is laid along it.
    std::vector<Point> places;
};

// What a feeding leaves; n_kg is after gas loss. n + lost + retained = N in the bales.
struct DepositMass {
    double residue_dm_kg = 0.0;
    double n_kg = 0.0;
    double p2o5_kg = 0.0;
    double k2o_kg = 0.0;
    double n_lost_gas_kg = 0.0;
};

struct StartHint {
    std::string from;  // "Creek gate", "the NW corner", "the windmill"
    double distance_m = 0.0;
    double bearing_rad = 0.0;
};

struct Caution {
    std::string code;
    std::string text;   // a sentence
    std::string brief;  // a few words, for the front page; never empty
};

// Whether the user holds the lines, or asked for others than were planned.
enum class ByHand { no, held, another };

struct PlannedFeeding {
    sys_days date;
    int days_covered = 1;
    bool firm = true;  // days 1-3; later ones are in pencil
    HerdId herd;
    PastureId pasture;
    RigId rig;
    std::vector<BaleDraw> bales;
    double dm_eaten_kg = 0.0;
    double dm_needed_kg = 0.0;
    double dm_offered_kg = 0.0;
    double cp_ratio = 0.0;  // of the whole ration, cake counted
    double tdn_ratio = 0.0;
    std::vector<PlannedLoad> loads;
    std::vector<PlannedLine> lines;
    bool in_rings = false;  // bales are set whole in ring feeders: no line, the next three are 0
    double line_length_m = 0.0;
    double lay_kg_per_m = 0.0;  // as fed
    double line_m_per_head = 0.0;
    StartHint start;
    std::string toward;  // "northeast, toward the windmill"
    DepositMass deposit;
    DepositMass deposit_other;     // cake and mineral
    double above_nearest_s = 0.0;  // over the nearest lines that the rules left
    std::optional<double> above_nearest_cost;
    // What past feedings left, as seen through the window (window_m, 10 m): mean along these lines,
    // and the pasture's heaviest place.
    double ground_so_far_bales_per_m2 = 0.0;
    double heaviest_bales_per_m2 = 0.0;
    std::vector<Caution> cautions;
    std::string why;
    ByHand by_hand = ByHand::no;
};

struct EvennessFigures {
    double cv_ratio = 0.0;
    double cu_ratio = 0.0;
    double low_quarter_ratio = 0.0;
};

struct PastureEvenness {
    PastureId pasture;
    std::string measure;                    // "n", "p2o5", "k2o"
    std::optional<EvennessFigures> before;  // nullopt: nothing was there
    std::optional<EvennessFigures> after;
};

// What a pasture has had this season, mean over its feed ground, against what it wants.
struct TargetLoad {
    PastureId pasture;
    std::string measure;  // "n", "p2o5", "k2o"
    double wanted_kg_per_m2 = 0.0;
    double before_kg_per_m2 = 0.0;  // feedings on record
    double after_kg_per_m2 = 0.0;   // and the plan
};

struct Optimality {
    double objective = 0.0;
    double lower_bound = 0.0;
    double gap = 0.0;
    std::optional<double> gap_of_gain;
    double j_ref = 0.0;
    int candidates = 0;  // mean over the feedings
    double cv = 0.0;
    std::optional<double> cv_bound;
    std::optional<double> order_cost;
};

struct HayLeft {
    LotId lot;
    YardId yard;
    int count = 0;
    std::optional<sys_days> runs_out;
};

struct HayLasts {
    std::optional<sys_days> earliest;
    std::optional<sys_days> latest;
    std::optional<sys_days> turnout;
    std::optional<int> short_bales_least;
    std::optional<int> short_bales_most;
};

struct PlanTotals {
    int bales = 0;
    double distance_m = 0.0;
    double time_s = 0.0;
    double fuel_l = 0.0;
    std::optional<double> cost;
};

struct Plan {
    std::string ranch;
    sys_days from;
    int days = 7;
    std::uint64_t seed = 0;
    std::vector<PlannedFeeding> feedings;  // by date, then herd
    PlanTotals totals;
    std::vector<PastureEvenness> evenness;
    std::vector<TargetLoad> targets;  // the least share of what is wanted first
    Optimality optimality;
    std::vector<HayLeft> hay_left;
    HayLasts hay_lasts;
    std::vector<Assumption> assumptions;
    Problems problems;
    std::vector<SwitchedOff> switched_off;
};

}  // namespace haylane
