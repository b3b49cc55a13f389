// Haul in the choice is the driving time of every load there and back, and hay blown off the line
// in the time it is worth; it enters J relative to the least possible, so its unit drops out.
#include "core/plan/place_feedings.h"

#include "core/deposit/excreta_places.h"
#include "core/plan/ground_limits.h"
#include "core/plan/line_rules.h"
#include "core/plan/load_room.h"
#include "core/plan/lost_hay.h"
#include "core/plan/order_ground.h"
#include "core/plan/plan_objective.h"
#include "core/plan/ring_feeding.h"
#include "core/plan/soil_need.h"

#include <algorithm>
#include <map>

namespace haylane {

namespace {

Raster<double> scaled(Raster<double> raster, double factor) {
    for (double& value : raster.values) value *= factor;
    return raster;
}

// Pastures joined by a herd that may use both share one target level.
std::vector<int> groups_of(const Ranch& ranch) {
    std::vector<int> group(ranch.pastures.size());
    for (std::size_t p = 0; p < group.size(); ++p) group[p] = static_cast<int>(p);
    for (const Herd& herd : ranch.herds) {
        for (const PastureId p : herd.pastures) {
            const int from = group[p.index()];
            const int to = group[herd.pastures.front().index()];
            std::replace(group.begin(), group.end(), from, to);
        }
    }
    return group;
}

// Old lines of this season (or of rest_days) that new lines keep away from.
std::vector<RestingLine> resting_lines(const Ranch& ranch, const std::map<int, int>& ground_of,
                                       sys_days from, bool rest_ends) {
    const int rest = static_cast<int>(ranch.settings.rest_days);
    sys_days since = season_start(from, ranch.settings.season_start);
    if (rest > 0 && rest_ends) since = from - std::chrono::days{rest};
    std::vector<RestingLine> lines;
    for (const FeedingRecord& feeding : ranch.feedings) {
        const auto ground = ground_of.find(feeding.pasture.value);
        if (ground == ground_of.end() || feeding.to < since) continue;
        if (const auto* laid = std::get_if<MultiPolyline>(&feeding.shape)) {
            for (const Polyline& line : *laid) lines.push_back({ground->second, line, feeding.to});
        }
        if (const auto* set = std::get_if<std::vector<Point>>(&feeding.shape)) {
            for (const Point place : *set) lines.push_back({ground->second, {place}, feeding.to});
        }
    }
    return lines;
}

// What the settings and the request say, without grounds and feedings.
LineChoiceInput input_of(const Settings& s, const PlanRequest& request) {
    return {.spacing_m = s.spacing_m,
            .rest_days = static_cast<int>(s.rest_days),
            .window_m = s.window_m,
            .sigma_line_m = s.sigma_line_m,
            .cost_weight_ratio = s.cost_weight_ratio,
            .seed = request.seed,
            .threads = request.threads,
            .swap_rounds = request.swap_rounds,
            .progress = request.progress,
            .enough = request.enough};
}

ChoiceMass mass_of(const DepositSplit& split, const ExcretaPlaces& places, Measure measure) {
    const double excreted = of_measure(split.excreted, measure);
    return {of_measure(split.residue, measure), excreted * places.line_ratio,
            scaled(places.elsewhere, excreted)};
}

// By candidate: driving time, and what hay blown off the line is worth in it.
std::vector<double> money_of(const Ranch& ranch, const ScheduledFeeding& feeding) {
    std::vector<double> money = *feeding.way_s;
    for (std::size_t c = 0; c < money.size(); ++c)
        money[c] += lost_hay_s(ranch, feeding, (*feeding.candidates)[c], money[c]);
    return money;
}

// By limit of the pasture.
std::vector<LineMass> limited_masses(const Pasture& pasture, const DepositSplit& split,
                                     const ExcretaPlaces& places) {
    std::vector<LineMass> masses;
    for (const NutrientLimit& limit : limits_of(pasture))
        masses.push_back({of_measure(split.residue, limit.measure),
                          of_measure(split.excreted, limit.measure) * places.line_ratio});
    return masses;
}

// What all feedings of one pasture excrete.
Nutrients excreted_on(const Ranch& ranch, const FeedSchedule& schedule, PastureId pasture) {
    Nutrients all;
    for (const ScheduledFeeding& feeding : schedule.feedings) {
        if (feeding.pasture != pasture) continue;
        const Nutrients own = split_of(ranch, feeding).excreted;
        all.n_kg += own.n_kg;
        all.p2o5_kg += own.p2o5_kg;
        all.k2o_kg += own.k2o_kg;
    }
    return all;
}

LineChoiceInput choice_input(PlanContext& context, const FeedSchedule& schedule,
                             const std::vector<PastureLoad>& loads, const PlanRequest& request,
                             const SoilTests& soil) {
    const Ranch& ranch = context.ranch();
    const Measure measure = measure_named(ranch.settings.objective_measure);
    const std::vector<int> groups = groups_of(ranch);
    LineChoiceInput input = input_of(ranch.settings, request);
    std::map<int, int> ground_of;         // pasture -> index in input.grounds
    std::map<int, ExcretaPlaces> places;  // by pasture
    for (const ScheduledFeeding& feeding : schedule.feedings) {
        const PastureLoad& load = loads[feeding.pasture.index()];
        const auto [ground, fresh] =
            ground_of.emplace(feeding.pasture.value, static_cast<int>(input.grounds.size()));
        if (fresh) {
            const ExcretaPlaces own = excreta_places(ranch, load.ground);
            input.grounds.push_back(
                {&load.ground, layer(load.before, measure), groups[feeding.pasture.index()],
                 room_under_limits(ranch[feeding.pasture], load, own.elsewhere,
                                   excreted_on(ranch, schedule, feeding.pasture),
                                   ranch.settings.window_m),
                 soil_need(soil, load.ground)});
            places[feeding.pasture.value] = own;
        }
        const DepositSplit split = split_of(ranch, feeding);
        const bool rings = is_fed_in_rings(ranch, feeding.herd);
        const ExcretaPlaces& at = places[feeding.pasture.value];
        input.feedings.push_back(
            {.date = feeding.date,
             .ground = ground->second,
             .candidates = feeding.candidates,
             .money = money_of(ranch, feeding),
             .mass = mass_of(split, at, measure),
             .rig = rings ? nullptr : &ranch[feeding.rig],
             .wind_from_rad = rings ? -1.0 : wind_from_rad_on(ranch, feeding.date),
             .rest_ends = !calving_since(ranch, feeding.herd, feeding.date),
             .limited = limited_masses(ranch[feeding.pasture], split, at)});
    }
    const bool rest_ends =
        std::all_of(input.feedings.begin(), input.feedings.end(),
                    [](const ChoiceFeeding& feeding) { return feeding.rest_ends; });
    input.resting = resting_lines(ranch, ground_of, request.from, rest_ends);
    return input;
}

// Leaves out what only the choice among candidates needed.
void keep_what_j_needs(LineChoiceInput input, ChoiceModel model, Placement& placement) {
    for (ChoiceFeeding& feeding : input.feedings) {
        feeding.candidates = nullptr;
        feeding.money.clear();
    }
    input.progress = {};
    model.shapes.clear();
    model.shape_ground.clear();
    for (FeedingModel& feeding : model.feedings) {
        feeding.shape.clear();
        feeding.cost.clear();
    }
    placement.input = std::move(input);
    placement.model = std::move(model);
}

Placement free_placement(const FeedSchedule& schedule, const LineChoice& choice) {
    Placement placement;
    placement.optimality = choice.optimality;
    for (std::size_t f = 0; f < choice.chosen.size(); ++f) {
        if (choice.chosen[f] < 0) {  // stopped before it was chosen
            placement.feedings.emplace_back();
            continue;
        }
        const auto c = static_cast<std::size_t>(choice.chosen[f]);
        const auto nearest = static_cast<std::size_t>(choice.nearest[f]);
        const ScheduledFeeding& feeding = schedule.feedings[f];
        const std::vector<double>& way_s = *feeding.way_s;
        placement.feedings.push_back({.lines = (*feeding.candidates)[c],
                                      .above_nearest_s = way_s[c] - way_s[nearest],
                                      .yielded = choice.yielded[f]});
    }
    return placement;
}

// Time of the nearest candidate within limits and as clear of resting lines as is kept; `own_s`
// when none is nearer.
double nearest_s(const ScheduledFeeding& feeding, const LineRules& rules, const LoadLimits& limits,
                 std::size_t f, const OrderedFeeding& own) {
    const std::vector<Clearance>& clearances = rules.from_resting(f);
    double least = own.way_s;
    for (std::size_t c = 0; c < clearances.size(); ++c) {
        if (clearances[c] >= needed_clearance(own.yielded) && limits.fits_alone(f, c))
            least = std::min(least, (*feeding.way_s)[c]);
    }
    return least;
}

std::optional<OrderPlace> place_of(const OrderInput& order, std::size_t f,
                                   const OrderedFeeding& own) {
    const auto holds = [f](const std::vector<std::size_t>& list) {
        return std::find(list.begin(), list.end(), f) != list.end();
    };
    if (holds(order.held) || holds(order.last)) return std::nullopt;
    return own.place;
}

// Lays the feedings beside one another and says what that costs above the free choice. Feedings by
// hand have no place in the order.
Placement neighbour_placement(const OrderInput& order, const FeedSchedule& schedule,
                              const ChoiceModel& model, const LineRules& rules,
                              const LoadLimits& limits, const LineChoice& free) {
    const LineChoiceInput& input = *order.choice;
    Placement placement;
    placement.optimality = free.optimality;
    std::vector<Candidate> laid;
    double money = 0.0;
    std::vector<OrderedFeeding> ordered = neighbour_order(order, model, limits);
    for (std::size_t f = 0; f < ordered.size(); ++f) {
        OrderedFeeding& own = ordered[f];
        const double nearest = nearest_s(schedule.feedings[f], rules, limits, f, own);
        money += own.way_s + own.lost_s;
        laid.push_back(own.lines);
        placement.feedings.push_back({.lines = std::move(own.lines),
                                      .above_nearest_s = own.way_s - nearest,
                                      .yielded = own.yielded,
                                      .place = place_of(order, f, own)});
    }
    const auto residual = residuals(model, input, laid);
    Optimality& o = placement.optimality;
    o.objective = square_of(model, residual) + model.cost_per_money * money;
    const bool whole = std::find(free.chosen.begin(), free.chosen.end(), -1) == free.chosen.end();
    if (whole) o.order_cost = o.objective - free.optimality.objective;
    o.cv = cv_of(model, residual);
    o = with_gaps(o);
    return placement;
}

// Feedings of which no candidate keeps the limits, whatever the others do.
std::vector<std::size_t> over_limit_alone(const ChoiceModel& model, const LoadLimits& limits) {
    std::vector<std::size_t> over;
    for (std::size_t f = 0; f < model.feedings.size(); ++f) {
        bool any = !limits.limited(f);
        for (std::size_t c = 0; c < model.feedings[f].candidates() && !any; ++c)
            any = limits.fits_alone(f, c);
        if (!any) over.push_back(f);
    }
    return over;
}

std::vector<std::size_t> first_without_line(const Placement& placement) {
    for (std::size_t f = 0; f < placement.feedings.size(); ++f)
        if (placement.feedings[f].lines.lines.empty()) return {f};
    return {};
}

Problems limit_problems(const Ranch& ranch, const LineChoiceInput& input,
                        const std::vector<PastureLoad>& loads) {
    Problems all;
    for (const ChoiceGround& ground : input.grounds) {
        const Problems own = over_limit_already(ranch, loads[ground.ground->pasture.index()]);
        all.insert(all.end(), own.begin(), own.end());
    }
    return all;
}

}  // namespace

Result<Placement> place_feedings(PlanContext& context, const FeedSchedule& schedule,
                                 const std::vector<PastureLoad>& loads,
                                 const PlanRequest& request) {
    const Settings& s = context.ranch().settings;
    const SoilTests soil =
        soil_tests(context.ranch(), measure_named(s.objective_measure), request.from);
    LineChoiceInput input = choice_input(context, schedule, loads, request, soil);
    if (request.progress.stopped()) return fail(plan_cancelled());
    ChoiceModel model = choice_model(input);
    if (request.progress.stopped()) return fail(plan_cancelled());
    LineRules rules(input);
    const LoadLimits limits(input, model);
    Placement placement;
    placement.without_line = over_limit_alone(model, limits);
    if (!placement.without_line.empty()) return placement;  // nothing to choose yet
    const LineChoice choice = choose_lines(input, model, rules, limits);
    if (request.order == LineOrder::free || request.progress.stopped()) {
        placement = free_placement(schedule, choice);
    } else {
        auto ground = order_ground(context, schedule, request);
        if (!ground) return fail(ground.error());
        placement = neighbour_placement(order_input(input, *ground, schedule, context.ranch()),
                                        schedule, model, rules, limits, choice);
    }
    placement.without_line = first_without_line(placement);
    placement.problems = limit_problems(context.ranch(), input, loads);
    placement.problems.insert(placement.problems.end(), soil.problems.begin(), soil.problems.end());
    if (choice.cut_short)
        placement.problems.push_back(
            {"time_limit", Severity::info, "the plan",
             "The time limit ended the search for better lines: every rule is kept, but the ground "
             "may end up less even than it could.",
             "Plan without a time limit, or with a longer one."});
    keep_what_j_needs(std::move(input), std::move(model), placement);
    return placement;
}

}  // namespace haylane
