// With d = W of the new lines less W of the old, J changes by 2<residual, d> + |d|^2 and the way's
// cost; both are sums over the thin band of cells that either line reaches.
#include "core/plan/move_line.h"

#include "core/base/require.h"
#include "core/deposit/cross_profile.h"
#include "core/plan/hand_lines.h"
#include "core/plan/line_rules.h"
#include "core/plan/load_out.h"
#include "core/plan/lost_hay.h"
#include "core/plan/plan_objective.h"
#include "core/plan/spoken.h"
#include "core/plan/way_time.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

// Changes of J are told against what the search gained a feeding over lines laid at random.
constexpr double kAsEvenShare = 0.1;
constexpr double kLeastScale = 1e-3;  // of J, where the search gained nothing

std::string evenness_sentence(double change, const Optimality& o, std::size_t feedings) {
    const double gained = (o.j_ref - o.objective) / static_cast<double>(feedings);
    const double scale = gained > 0.0 ? gained : kLeastScale * o.objective;
    if (change <= -kAsEvenShare * scale) return "The ground comes out more even than planned.";
    if (change < kAsEvenShare * scale) return "The ground comes out about as even as planned.";
    return change < scale ? "The ground comes out less even than planned."
                          : "The ground comes out much less even: as with a line laid anywhere.";
}

struct Work {
    double time_s = 0.0;
    double distance_m = 0.0;
    double fuel_l = 0.0;
    std::optional<double> cost = 0.0;
};

Work work_of(const PlannedFeeding& feeding) {
    Work work;
    for (const PlannedLoad& load : feeding.loads) {
        work.time_s += load.time_s;
        work.distance_m += load.distance_m;
        work.fuel_l += load.fuel_l;
        if (!load.cost) work.cost.reset();
        if (work.cost) *work.cost += *load.cost;
    }
    return work;
}

// The worst over all pairs of lines.
Clearance clearance_between(const Candidate& lines, const MultiPolyline& others, double spacing_m) {
    Clearance worst = Clearance::clear;
    for (const CandidateLine& line : lines.lines) {
        const Box near = box_of(line.path).grown_by(spacing_m);
        for (const Polyline& other : others) {
            if (other.empty() || !near.meets(box_of(other))) continue;
            worst = std::min(worst, clearance(line.path, other, spacing_m));
        }
    }
    return worst;
}

double greatest_in(const Raster<double>& values, const Raster<std::uint8_t>& mask) {
    double greatest = 0.0;
    for (std::size_t c = 0; c < values.values.size(); ++c)
        if (mask.values[c] != 0) greatest = std::max(greatest, values.values[c]);
    return greatest;
}

}  // namespace

LineMover::LineMover(KeptPlan& plan)
    : plan_(&plan), limits_(plan.placement.input, plan.placement.model), room_(limits_) {
    const Placement& placement = plan.placement;
    const std::vector<ScheduledFeeding>& scheduled = plan.schedule.feedings;
    const Ranch& ranch = plan.context->ranch();
    std::vector<Candidate> lines;
    for (const PlacedLines& placed : placement.feedings) lines.push_back(placed.lines);
    residual_ = residuals(placement.model, placement.input, lines);
    bales_seen_.resize(placement.model.grounds.size());
    for (std::size_t f = 0; f < scheduled.size(); ++f) {
        const GroundModel& ground = placement.model.grounds[ground_of(f)];
        if (limits_.limited(f)) room_.add(f, limits_.unit_laid(f, lines[f]), 1.0);
        way_s_.push_back(
            way_time_s(plan.context->travel(scheduled[f].date, ranch[scheduled[f].rig]),
                       scheduled[f].pasture, yards_of(scheduled[f].loads), lines[f]));
        laid_.push_back(laid_kg(ground, laid_cells(placement.model, placement.input, f, lines[f])));
        bales_.push_back(bales_of(f, lines[f]));
        Raster<double>& seen = bales_seen_[ground_of(f)];
        if (seen.values.empty()) seen = *plan.ground_seen(scheduled[f].pasture).bales;
        add_band(bales_.back(), 1.0, seen);
    }
}

std::size_t LineMover::ground_of(std::size_t feeding) const {
    return plan_->placement.model.feedings[feeding].ground;
}

// Bales lie where the residue does.
Band LineMover::bales_of(std::size_t feeding, const Candidate& lines) const {
    const GroundModel& ground = plan_->placement.model.grounds[ground_of(feeding)];
    const ChoiceFeeding& asked = plan_->placement.input.feedings[feeding];
    const Band cells =
        band_of(unit_cells(lines, asked.rig, asked.wind_from_rad, *ground.ground).residue,
                ground.ground->mask.grid);
    return ground.window.forward(scaled(cells, plan_->schedule.feedings[feeding].mix.bales));
}

Result<MovedLines> LineMover::move(std::size_t feeding, const MultiPolyline& lines) {
    require(feeding < plan_->schedule.feedings.size(), "move: no such feeding");
    ScheduledFeeding held = plan_->schedule.feedings[feeding];
    held.by_hand = ByHand::held;
    auto hand = hand_lines(*plan_->context, held, lines);
    if (!hand) return fail(hand.error());
    MovedLines moved{.broken = std::move(hand->broken), .yielded = std::move(hand->yielded)};
    if (hand->lines.lines.empty() || !std::isfinite(hand->way_s)) return moved;
    if (!keeps_limits(feeding, hand->lines))
        moved.broken.emplace_back("It takes the ground over the pasture's limit.");
    held.lay_kg_per_m = hand->lay_kg_per_m;
    held.ground = hand->ground;
    const PlacedLines& planned = plan_->placement.feedings[feeding];
    const double nearest_s = way_s_[feeding] - planned.above_nearest_s;
    const PlacedLines placed{.lines = std::move(hand->lines),
                             .above_nearest_s = std::max(0.0, hand->way_s - nearest_s)};
    auto as_moved = as_planned(held, feeding, placed);
    if (!as_moved) return fail(as_moved.error());
    moved.feeding = std::move(*as_moved);
    tell_changes(feeding, placed, hand->way_s, moved);
    tell_neighbours(feeding, placed.lines, moved);
    return moved;
}

bool LineMover::keeps_limits(std::size_t feeding, const Candidate& lines) const {
    if (!limits_.limited(feeding)) return true;
    LoadRoom room = room_;
    room.add(feeding, limits_.unit_laid(feeding, plan_->placement.feedings[feeding].lines), -1.0);
    return room.holds(feeding, limits_.unit_laid(feeding, lines));
}

Result<PlannedFeeding> LineMover::as_planned(const ScheduledFeeding& held, std::size_t feeding,
                                             const PlacedLines& placed) {
    DaysWork work;
    for (std::size_t f = 0; f < feeding; ++f) {
        const ScheduledFeeding& before = plan_->schedule.feedings[f];
        work.add(before, plan_->placement.feedings[f].lines);
    }
    auto planned =
        planned_feeding(*plan_->context, held, placed, plan_->ground_seen(held.pasture), work);
    if (planned) planned->firm = plan_->result.plan.feedings[feeding].firm;
    return planned;
}

void LineMover::tell_changes(std::size_t feeding, const PlacedLines& placed, double way_s,
                             MovedLines& moved) const {
    const Placement& placement = plan_->placement;
    const std::size_t g = ground_of(feeding);
    const GroundModel& ground = placement.model.grounds[g];
    const Raster<std::uint8_t>& target = ground.ground->target;
    const Band laid =
        laid_kg(ground, laid_cells(placement.model, placement.input, feeding, placed.lines));
    const Band change = sum(laid, scaled(laid_[feeding], -1.0));
    const double uneven =
        ground.scale * (2.0 * dot(change, residual_[g], target) + dot(change, change, target));
    const Ranch& ranch = plan_->context->ranch();
    const ScheduledFeeding& scheduled = plan_->schedule.feedings[feeding];
    const auto money = [&](const Candidate& lines, double way) {
        return way + lost_hay_s(ranch, scheduled, lines, way);
    };
    moved.objective = uneven + placement.model.cost_per_money *
                                   (money(placed.lines, way_s) -
                                    money(placement.feedings[feeding].lines, way_s_[feeding]));
    moved.evenness = evenness_sentence(uneven, placement.optimality, way_s_.size());
    Raster<double> seen = bales_seen_[g];
    add_band(bales_[feeding], -1.0, seen);
    add_band(bales_of(feeding, placed.lines), 1.0, seen);
    moved.heaviest_bales_per_m2 = greatest_in(seen, ground.ground->mask) / seen.grid.cell_area_m2();
    const Work before = work_of(plan_->result.plan.feedings[feeding]);
    const Work after = work_of(moved.feeding);
    moved.time_s = after.time_s - before.time_s;
    moved.distance_m = after.distance_m - before.distance_m;
    moved.fuel_l = after.fuel_l - before.fuel_l;
    if (after.cost && before.cost) moved.cost = *after.cost - *before.cost;
}

void LineMover::tell_neighbours(std::size_t feeding, const Candidate& lines,
                                MovedLines& moved) const {
    const LineChoiceInput& input = plan_->placement.input;
    const ChoiceFeeding& own = input.feedings[feeding];
    const auto tell = [&](const MultiPolyline& others, sys_days laid) {
        const Clearance near = clearance_between(lines, others, input.spacing_m);
        if (near == Clearance::clear || !keep_apart(input, own, laid)) return;
        const std::string lies =
            near == Clearance::near
                ? fmt::format("It lies closer than {} to",
                              spoken_length(input.spacing_m, plan_->context->ranch().settings))
                : std::string("It lies on or right beside");
        std::string text = fmt::format("{} the line of {}.", lies, format_day(laid));
        if (std::find(moved.yielded.begin(), moved.yielded.end(), text) == moved.yielded.end())
            moved.yielded.push_back(std::move(text));
    };
    for (const RestingLine& line : input.resting)
        if (line.ground == input.feedings[feeding].ground) tell({line.path}, line.laid);
    for (std::size_t f = 0; f < input.feedings.size(); ++f) {
        if (f == feeding || input.feedings[f].ground != input.feedings[feeding].ground) continue;
        tell(paths_of(plan_->placement.feedings[f].lines), input.feedings[f].date);
    }
}

}  // namespace haylane
