#include "core/plan/planned_feeding.h"

#include "core/haul/fuel.h"
#include "core/haul/load_work.h"
#include "core/plan/cautions.h"
#include "core/plan/describe.h"
#include "core/plan/ground_loads.h"
#include "core/plan/ground_so_far.h"
#include "core/plan/laying_wind.h"
#include "core/plan/reasons.h"

#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

DepositMass mass_of(const DepositSplit& split) {
    return {split.residue_dm_kg, split.residue.n_kg + split.excreted.n_kg,
            split.residue.p2o5_kg + split.excreted.p2o5_kg,
            split.residue.k2o_kg + split.excreted.k2o_kg, split.n_lost_gas_kg};
}

// Cake and mineral: what is not kept by the animals, as mass only.
DepositMass other_mass(const Herd& herd, int days, const Settings& s) {
    const double head_days = static_cast<double>(herd.head) * days;
    DepositMass mass;
    mass.n_kg =
        herd.cake_kg * herd.cake_cp_ratio / kProteinPerN * head_days * (1.0 - s.retained_n_ratio);
    mass.p2o5_kg = (herd.cake_kg * herd.cake_p_ratio + herd.mineral_kg * herd.mineral_p_ratio) *
                   kP2o5PerP * head_days * (1.0 - s.retained_p_ratio);
    return mass;
}

// The time above the nearest, priced with the fuel burnt per second on the way.
std::optional<double> above_cost(const Ranch& ranch, const ScheduledFeeding& feeding,
                                 double above_s) {
    constexpr double kHaulLoadRatio = 0.4;
    const double fuel_l = above_s * fuel_rate_l_per_s(kHaulLoadRatio, ranch[feeding.rig].pto_w,
                                                      ranch.settings.throttle_cut_ratio);
    return daily_cost(above_s, fuel_l, ranch.settings);
}

void describe_start(PlanContext& context, const ScheduledFeeding& feeding,
                    PlannedFeeding& planned) {
    const Ranch& ranch = context.ranch();
    const TravelMap& travel = context.travel(feeding.date, ranch[feeding.rig]);
    const auto marks = landmarks_of(ranch, feeding.pasture, travel.gates_of(feeding.pasture));
    const PlannedLine& first = planned.lines.front();
    planned.start =
        start_hint(marks, first.places.empty() ? first.path.front() : first.places.front());
    planned.toward = toward(marks, first.path);
}

PlannedFeeding amounts_of(const Ranch& ranch, const ScheduledFeeding& feeding,
                          const Candidate& lines) {
    const double fines =
        lines.in_rings ? 0.0
                       : fines_ratio(ranch, ranch[feeding.rig], feeding.date, paths_of(lines));
    PlannedFeeding planned{.date = feeding.date,
                           .days_covered = feeding.days,
                           .herd = feeding.herd,
                           .pasture = feeding.pasture,
                           .rig = feeding.rig,
                           .dm_eaten_kg = feeding.need.eaten_kg * (1.0 - fines),
                           .dm_needed_kg = feeding.needed_kg,
                           .dm_offered_kg = feeding.mix.dm_kg,
                           .cp_ratio = feeding.lots.cp_ratio,
                           .tdn_ratio = feeding.lots.tdn_ratio,
                           .by_hand = feeding.by_hand};
    for (const LotPick& pick : feeding.lots.picks)
        planned.bales.push_back({pick.lot, ranch[pick.lot].yard, pick.count});
    planned.deposit = mass_of(split_of(ranch, feeding, fines));
    planned.deposit_other = other_mass(ranch[feeding.herd], feeding.days, ranch.settings);
    return planned;
}

}  // namespace

Result<PlannedFeeding> planned_feeding(PlanContext& context, const ScheduledFeeding& feeding,
                                       const PlacedLines& placed, const GroundSeen& seen,
                                       DaysWork& work) {
    const Ranch& ranch = context.ranch();
    PlannedFeeding planned = amounts_of(ranch, feeding, placed.lines);
    const auto driving = haul_loads(context, feeding, placed.lines, work, planned);
    if (!driving) return fail(driving.error());
    describe_start(context, feeding, planned);
    planned.above_nearest_s = placed.above_nearest_s;
    planned.above_nearest_cost = above_cost(ranch, feeding, planned.above_nearest_s);
    const GroundSoFar so_far = ground_so_far(*seen.ground, *seen.bales, planned.lines);
    planned.ground_so_far_bales_per_m2 = so_far.here_per_m2;
    planned.heaviest_bales_per_m2 = so_far.heaviest_per_m2;
    planned.cautions = cautions_for(context, feeding, planned);
    planned.cautions.insert(planned.cautions.end(), driving->begin(), driving->end());
    planned.why = why(context, feeding, placed, so_far);
    return planned;
}

}  // namespace haylane
