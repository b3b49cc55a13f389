#include "core/haul/stack_places.h"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

namespace haylane {
namespace {

constexpr double kNone = std::numeric_limits<double>::infinity();
constexpr double kBulkTrailerKg = 5000.0;  // assumption: empty bulk trailer

// The ranch with a stack in each feed pasture that some herd uses.
Ranch with_stacks(const HaulWays& ways) {
    Ranch ranch = ways.ranch();
    for (const PastureId p : ways.pastures()) {
        const bool used =
            std::any_of(ranch.herds.begin(), ranch.herds.end(), [&](const Herd& herd) {
                return std::find(herd.pastures.begin(), herd.pastures.end(), p) !=
                       herd.pastures.end();
            });
        if (!used) continue;
        ranch.yards.push_back({.name = fmt::format("stack in {}", ranch[p].name),
                               .at = ways.place(p),
                               .capacity_bales = std::nullopt,
                               .all_weather = false});
    }
    return ranch;
}

std::optional<PastureId> pasture_at(const Ranch& ranch, Point p) {
    for (std::size_t i = 0; i < ranch.pastures.size(); ++i)
        if (contains(ranch.pastures[i].shape, p)) return PastureId::at(i);
    return std::nullopt;
}

// Hay that each pasture takes of a year's, as its herds need it.
std::vector<double> shares(const Ranch& ranch, const std::vector<PastureId>& pastures) {
    std::vector<double> share(pastures.size(), 0.0);
    double sum = 0.0;
    for (const Herd& herd : ranch.herds) {
        for (const PastureId p : herd.pastures) {
            const auto found = std::find(pastures.begin(), pastures.end(), p);
            if (found == pastures.end()) continue;
            const double part =
                herd.head * herd.weight_kg / static_cast<double>(herd.pastures.size());
            share[static_cast<std::size_t>(found - pastures.begin())] += part;
            sum += part;
        }
    }
    for (double& part : share) part = sum > 0.0 ? part / sum : 0.0;
    return share;
}

double price(const LoadWork& work, double extra_s, double extra_l, const Settings& settings) {
    const double time_s = work.time_s + extra_s;
    return daily_cost(time_s, work.fuel_l + extra_l, settings).value_or(time_s);
}

// One bulk load from a field to a stack and empty back, loaded and unloaded bale by bale.
double bulk_cost(const HaulWays& summer, const Rig& rig, const Route& route, const MeanHay& hay) {
    const Route back = reversed(route);
    const LoadInput load{.rig = &rig,
                         .hay_kg = kBulkBales * hay.bale_kg,
                         .bales = kBulkBales,
                         .wrap = Wrap::none,
                         .out = &back,
                         .back = &route};
    const Settings& settings = summer.ranch().settings;
    const LoadWork work = load_work(load, summer.terrain(), settings);
    return price(work, work.standing_s, work.standing_fuel_l, settings) / load.hay_kg;
}

double out_cost(const HaulWays& winter, YardId yard, PastureId pasture) {
    const Ranch& ranch = winter.ranch();
    double least = kNone;
    for (std::size_t r = 0; r < ranch.rigs.size(); ++r) {
        const Route* out = winter.route(yard, pasture, RigId::at(r));
        if (out == nullptr) continue;
        const Route back = reversed(*out);
        const MeanHay hay = usual_hay(ranch, YardId{0});
        const int bales = bales_a_load(ranch.rigs[r], winter.request().habits);
        const LoadWork work = trip_work({.rig = &ranch.rigs[r],
                                         .hay = hay,
                                         .bales = bales,
                                         .out = out,
                                         .back = &back,
                                         .day = winter.request().day},
                                        winter.terrain(), ranch.settings);
        least = std::min(least, price(work, 0.0, 0.0, ranch.settings) / (bales * hay.bale_kg));
    }
    return least;
}

// Fields that lie in no pasture are hauled from in a straight line, longer by the no-way factor.
Route field_way(const HaulWays& summer, YardId yard, const HayField& field, RigId rig) {
    const Ranch& ranch = summer.ranch();
    if (const auto in = pasture_at(ranch, field.at))
        if (auto route = summer.map(rig).route(yard, *in, field.at)) return std::move(*route);
    Route guess;
    const double length = distance_m(ranch[yard].at, field.at) * ranch.settings.no_way_factor_ratio;
    const double speed = summer.map(rig).field_m_per_s();
    guess.checked = false;
    guess.parts.push_back({{ranch[yard].at, field.at}, std::nullopt, length, speed});
    guess.length_m = length;
    guess.drive_s = length / speed;
    return guess;
}

void add_summer(const HaulWays& summer, StackPlaces& places, SitingProblem& problem) {
    const Ranch& ranch = summer.ranch();
    const auto strongest =
        std::max_element(ranch.rigs.begin(), ranch.rigs.end(),
                         [](const Rig& a, const Rig& b) { return a.pto_w < b.pto_w; });
    const RigId id = RigId::at(static_cast<std::size_t>(strongest - ranch.rigs.begin()));
    Rig rig = *strongest;
    rig.mass_kg += kBulkTrailerKg;
    const MeanHay hay = usual_hay(ranch, YardId{0});
    for (const HayField& field : ranch.hay_fields) {
        problem.supply_kg.push_back(field.hay_kg);
        problem.cost_in.emplace_back();
        bool guessed = false;
        for (std::size_t y = 0; y < ranch.yards.size(); ++y) {
            const Route route = field_way(summer, YardId::at(y), field, id);
            guessed = guessed || !route.checked;
            problem.cost_in.back().push_back(bulk_cost(summer, rig, route, hay));
        }
        if (guessed)
            places.not_reached.push_back(fmt::format(
                "Hay field {}: some way was not checked; a straight line was taken.", field.name));
    }
}

}  // namespace

Result<StackPlaces> stack_places(const HaulWays& ways, int most) {
    const Ranch ranch = with_stacks(ways);
    const MeanHay hay = usual_hay(ranch, YardId{0});
    StackPlaces places;
    places.yards = ways.ranch().yards.size();
    for (const HayField& field : ranch.hay_fields) places.hay_kg += field.hay_kg;
    if (ranch.hay_fields.empty())
        for (const HayLot& lot : ranch.lots) places.hay_kg += lot.bales * lot.bale_kg;
    if (places.hay_kg <= 0.0)
        return fail({"no_hay", "There is no hay to stack.", "hay_fields, hay",
                     "Give the tons of each hay field, or the bales on hand."});
    const auto winter = HaulWays::find(ranch, ways.terrain(), ways.request());
    if (!winter) return fail(winter.error());
    HaulRequest dry = ways.request();
    dry.day = {.date = dry.day.date, .low_c = 10.0};
    dry.blocked.clear();
    const auto summer = HaulWays::find(ranch, ways.terrain(), dry);
    if (!summer) return fail(summer.error());

    SitingProblem problem;
    problem.most_sites = most > 0 ? most : static_cast<int>(places.yards);
    for (const Yard& yard : ranch.yards) {
        places.names.push_back(yard.name);
        places.all_weather.push_back(yard.all_weather);
        problem.sites.push_back({.name = yard.name});
        if (yard.capacity_bales)
            problem.sites.back().capacity_kg = *yard.capacity_bales * hay.bale_kg;
    }
    add_summer(*summer, places, problem);
    const std::vector<double> share = shares(ranch, winter->pastures());
    double reached = 0.0;
    for (std::size_t k = 0; k < share.size(); ++k) {
        if (share[k] <= 0.0) continue;
        std::vector<double> costs;
        const PastureId pasture = winter->pastures()[k];
        for (std::size_t y = 0; y < ranch.yards.size(); ++y)
            costs.push_back(out_cost(*winter, YardId::at(y), pasture));
        if (std::none_of(costs.begin(), costs.end(), [](double c) { return c < kNone; })) {
            places.not_reached.push_back(fmt::format(
                "{}: {}", ranch[pasture].name, winter->why_not(YardId{0}, pasture, RigId{0})));
            continue;
        }
        problem.demand_kg.push_back(share[k]);
        problem.cost_out.push_back(std::move(costs));
        reached += share[k];
    }
    // A hair less than the fields give, so that rounding leaves no pasture short.
    for (double& kg : problem.demand_kg) kg *= places.hay_kg * (1.0 - 1e-9) / reached;
    places.in_money = daily_cost(1.0, 1.0, ranch.settings).has_value();
    auto proven = choose_sites(problem);
    if (!proven) return fail(proven.error());
    places.proven = std::move(*proven);
    std::vector<int> today;
    for (std::size_t y = 0; y < places.yards; ++y) today.push_back(static_cast<int>(y));
    // No value: today's yards cannot hold or reach it all, which the tables say.
    if (auto cost = cost_of_sites(problem, today)) places.today = std::move(*cost);
    return places;
}

}  // namespace haylane
