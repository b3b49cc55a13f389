// Haul in the choice is the driving time of every load there and back; it enters J relative to the
// least possible, so its unit drops out.
#include "core/plan/place_feedings.h"

#include "core/deposit/excreta_places.h"

#include <algorithm>
#include <map>

namespace haylane {

namespace {

double of_measure(const Nutrients& amounts, Measure measure) {
    if (measure == Measure::n) return amounts.n_kg;
    return measure == Measure::k2o ? amounts.k2o_kg : amounts.p2o5_kg;
}

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
                                       sys_days from) {
    const int rest = static_cast<int>(ranch.settings.rest_days);
    const sys_days since =
        rest > 0 ? from - std::chrono::days{rest} : season_start(from, ranch.settings.season_start);
    std::vector<RestingLine> lines;
    for (const FeedingRecord& feeding : ranch.feedings) {
        const auto ground = ground_of.find(feeding.pasture.value);
        if (ground == ground_of.end() || feeding.to < since) continue;
        if (const auto* laid = std::get_if<MultiPolyline>(&feeding.shape)) {
            for (const Polyline& line : *laid) lines.push_back({ground->second, line, feeding.to});
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
            .progress = request.progress};
}

ChoiceMass mass_of(const DepositSplit& split, const ExcretaPlaces& places, Measure measure) {
    const double excreted = of_measure(split.excreted, measure);
    return {of_measure(split.residue, measure), excreted * places.line_ratio,
            scaled(places.elsewhere, excreted)};
}

}  // namespace

LineChoice place_feedings(const Ranch& ranch, const FeedSchedule& schedule,
                          const std::vector<PastureLoad>& loads, const PlanRequest& request) {
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
            input.grounds.push_back(
                {&load.ground, layer(load.before, measure), groups[feeding.pasture.index()]});
            places[feeding.pasture.value] = excreta_places(ranch, load.ground);
        }
        input.feedings.push_back(
            {.date = feeding.date,
             .ground = ground->second,
             .candidates = feeding.candidates,
             .money = *feeding.way_s,
             .mass = mass_of(split_of(ranch, feeding), places[feeding.pasture.value], measure),
             .rig = &ranch[feeding.rig],
             .wind_from_rad = wind_from_rad_on(ranch, feeding.date)});
    }
    input.resting = resting_lines(ranch, ground_of, request.from);
    return choose_lines(input);
}

}  // namespace haylane
