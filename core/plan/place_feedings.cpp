// Haul in the choice is the driving time of every load there and back; it enters J relative to the
// least possible, so its unit drops out.
#include "core/plan/place_feedings.h"

#include "core/base/parallel.h"
#include "core/deposit/excreta_places.h"
#include "core/plan/load_out.h"
#include "core/plan/way_time.h"

#include <algorithm>
#include <map>

namespace haylane {

namespace {

double of_measure(const Nutrients& amounts, const std::string& measure) {
    if (measure == "n") return amounts.n_kg;
    if (measure == "k2o") return amounts.k2o_kg;
    return amounts.p2o5_kg;
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

double wind_on(const Ranch& ranch, sys_days day) {
    const WeatherDay* weather = weather_on(ranch, day);
    return weather != nullptr && weather->wind_from_rad ? *weather->wind_from_rad : -1.0;
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

}  // namespace

Placement place_feedings(PlanContext& context, const FeedSchedule& schedule,
                         const std::vector<PastureLoad>& loads, const PlanRequest& request) {
    const Ranch& ranch = context.ranch();
    const Settings& s = ranch.settings;
    LineChoiceInput input;
    std::map<int, int> ground_of;  // pasture -> index in input.grounds
    const std::vector<int> groups = groups_of(ranch);
    for (const ScheduledFeeding& feeding : schedule.feedings) {
        const auto index = static_cast<int>(input.grounds.size());
        if (!ground_of.emplace(feeding.pasture.value, index).second) continue;
        const PastureLoad& load = loads[feeding.pasture.index()];
        input.grounds.push_back({&load.ground,
                                 layer(load.before, measure_named(s.objective_measure)),
                                 groups[feeding.pasture.index()]});
    }
    Placement placement;
    std::map<int, ExcretaPlaces> places;  // by pasture
    for (const ScheduledFeeding& feeding : schedule.feedings) {
        const DepositSplit split = split_of(ranch, feeding);
        const PastureGround& ground = loads[feeding.pasture.index()].ground;
        const double excreted = of_measure(split.excreted, s.objective_measure);
        auto [fall, fresh] = places.try_emplace(feeding.pasture.value);
        if (fresh) fall->second = excreta_places(ranch, ground);
        const TravelMap& travel = context.travel(feeding.date, ranch[feeding.rig]);
        const std::vector<YardId> yards = yards_of(feeding.loads);
        std::vector<double> haul(feeding.candidates->size());
        parallel_for(haul.size(), request.threads, [&](std::size_t c) {
            haul[c] = way_time_s(travel, feeding.pasture, yards, (*feeding.candidates)[c]);
        });
        input.feedings.push_back(
            {.id = format_day(feeding.date) + "/" + ranch[feeding.herd].name,
             .date = feeding.date,
             .ground = ground_of[feeding.pasture.value],
             .candidates = feeding.candidates,
             .money = haul,
             .mass = {of_measure(split.residue, s.objective_measure),
                      excreted * fall->second.line_ratio, scaled(fall->second.elsewhere, excreted)},
             .rig = &ranch[feeding.rig],
             .wind_from_rad = wind_on(ranch, feeding.date)});
        placement.haul_s.push_back(std::move(haul));
    }
    input.resting = resting_lines(ranch, ground_of, request.from);
    input.spacing_m = s.spacing_m;
    input.rest_days = static_cast<int>(s.rest_days);
    input.window_m = s.window_m;
    input.sigma_line_m = s.sigma_line_m;
    input.cost_weight_ratio = s.cost_weight_ratio;
    input.seed = request.seed;
    input.threads = request.threads;
    input.swap_rounds = request.swap_rounds;
    input.progress = request.progress;
    placement.choice = choose_lines(input);
    return placement;
}

}  // namespace haylane
