#include "core/haul/haul_account.h"

#include "core/base/units.h"
#include "core/ground/feedable_ground.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace haylane {
namespace {

// A place in the middle of the largest piece of ground where hay may be laid, or driven.
Result<Point> middle_of(const Ranch& ranch, PastureId pasture, const Terrain& terrain, bool thaw) {
    GroundConditions conditions;
    conditions.fence_strip_m = ranch.settings.fence_clearance_m;
    conditions.thaw = thaw;
    const auto feed = feedable_ground(ranch, pasture, terrain, conditions);
    if (!feed) return fail(feed.error());
    MultiPolygon shape = feed->region.shape();
    if (shape.empty()) {
        auto drivable = drivable_ground(ranch, pasture, thaw);
        if (!drivable) return fail(drivable.error());
        shape = std::move(*drivable);
    }
    if (shape.empty()) shape = ranch[pasture].shape;
    const auto largest = std::max_element(
        shape.begin(), shape.end(),
        [](const Polygon& a, const Polygon& b) { return area_m2({a}) < area_m2({b}); });
    return label_point({*largest});
}

TravelConditions conditions_of(const Ranch& ranch, const HaulRequest& request, const Rig& rig) {
    TravelConditions c{.date = request.day.date,
                       .snow = request.day.snow,
                       .thaw = request.day.thaw,
                       .low_c = request.day.low_c,
                       .blocked = request.blocked};
    double heaviest_kg = 0.0;
    for (const HayLot& lot : ranch.lots) heaviest_kg = std::max(heaviest_kg, lot.bale_kg);
    c.loaded_kg = rig.mass_kg + bales_a_load(rig, request.habits) * heaviest_kg;
    c.rig_kg = rig.mass_kg;
    c.pto_w = rig.pto_w;
    return c;
}

Result<void> check(const Ranch& ranch, const HaulRequest& request) {
    for (const std::string& name : request.blocked) {
        const auto named = [&](const auto& item) { return item.name == name; };
        if (std::none_of(ranch.gates.begin(), ranch.gates.end(), named) &&
            std::none_of(ranch.trails.begin(), ranch.trails.end(), named))
            return fail({"unknown_way", fmt::format("{} is no gate and no trail.", name),
                         "--blocked", "Write the name as it stands on the map."});
    }
    const auto lacks = [&](const char* what, const char* table) {
        return fail(Error{"no_haul", fmt::format("The ranch has no {}.", what), table,
                          fmt::format("Add one to {}.", table)});
    };
    if (ranch.yards.empty()) return lacks("yard to haul from", "yards");
    if (ranch.rigs.empty()) return lacks("rig to haul with", "rigs");
    if (std::none_of(ranch.pastures.begin(), ranch.pastures.end(),
                     [](const Pasture& p) { return p.feed; }))
        return lacks("pasture to feed in", "pastures");
    return {};
}

void add(std::optional<double>& sum, const std::optional<double>& more) {
    if (more) sum = sum.value_or(0.0) + *more;
}

void add(HaulTotal& sum, const HerdHaul& herd) {
    sum.head += herd.head;
    sum.time_s += herd.time_s;
    sum.fuel_l += herd.fuel_l;
    sum.hay_kg += herd.hay_kg;
    sum.wasted_kg += herd.wasted_kg;
    add(sum.cost, herd.cost);
    add(sum.wasted_cost, herd.wasted_cost);
}

// The yard, and rig where none is named, of least cost; time where money is not known. Hay wasted
// is left out of the choice: which rig wastes more is not settled.
std::optional<HerdHaul> cheapest(const HaulWays& ways, HerdId herd, std::optional<RigId> only) {
    const Ranch& ranch = ways.ranch();
    std::optional<HerdHaul> best;
    for (std::size_t y = 0; y < ranch.yards.size(); ++y) {
        for (std::size_t r = 0; r < ranch.rigs.size(); ++r) {
            const RigId rig = RigId::at(r);
            if (only && *only != rig) continue;
            HerdHaulInput input{.herd = herd,
                                .pasture = ways.request().pastures[herd.index()],
                                .yard = YardId::at(y),
                                .rig = rig,
                                .day = ways.request().day,
                                .habits = ways.request().habits};
            input.out = ways.route(input.yard, input.pasture, rig);
            if (input.out == nullptr) continue;
            input.waste_ratio = waste_range(ranch[rig], ranch.settings).low_ratio;
            HerdHaul found = herd_haul(input, ranch, ways.terrain());
            const auto worth = [](const HerdHaul& h) { return h.cost.value_or(h.time_s); };
            if (!best || worth(found) < worth(*best)) best = std::move(found);
        }
    }
    return best;
}

HaulTrip trip_of(const HaulWays& ways, YardId yard, PastureId pasture, RigId rig,
                 std::optional<HerdId> herd) {
    const Ranch& ranch = ways.ranch();
    const HaulRequest& request = ways.request();
    HaulTrip trip{.yard = yard, .pasture = pasture, .rig = rig};
    const Route* out = ways.route(yard, pasture, rig);
    trip.bales = bales_a_load(ranch[rig], request.habits);
    const MeanHay hay = usual_hay(ranch, yard);
    trip.hay_kg = trip.bales * hay.bale_kg;
    if (out == nullptr) {
        trip.why_not = ways.why_not(yard, pasture, rig);
        return trip;
    }
    trip.reached = true;
    trip.way_checked = out->checked;
    trip.via = out->via;
    trip.one_way_m = out->length_m;
    trip.path = out->path();
    const Route back = reversed(*out);
    trip.work = trip_work({.rig = &ranch[rig],
                           .hay = hay,
                           .bales = trip.bales,
                           .out = out,
                           .back = &back,
                           .day = request.day},
                          ways.terrain(), ranch.settings);
    if (herd)
        trip.herd = herd_haul({.herd = *herd,
                               .pasture = pasture,
                               .yard = yard,
                               .rig = rig,
                               .out = out,
                               .day = request.day,
                               .habits = request.habits,
                               .waste_ratio = std::nullopt},
                              ranch, ways.terrain());
    return trip;
}

// The herd that is in a pasture that day, else the first that lists it.
std::optional<HerdId> herd_of(const HaulWays& ways, PastureId pasture) {
    const Ranch& ranch = ways.ranch();
    for (std::size_t h = 0; h < ranch.herds.size(); ++h)
        if (ways.request().pastures[h] == pasture) return HerdId::at(h);
    for (std::size_t h = 0; h < ranch.herds.size(); ++h) {
        const auto& listed = ranch.herds[h].pastures;
        if (std::find(listed.begin(), listed.end(), pasture) != listed.end()) return HerdId::at(h);
    }
    return std::nullopt;
}

std::vector<YardBreakEven> yard_break_evens(const Ranch& ranch,
                                            const std::optional<double>& cost_per_kg_mile) {
    std::vector<YardBreakEven> all;
    if (!cost_per_kg_mile || *cost_per_kg_mile <= 0.0) return all;
    const auto price = [&](YardId yard) -> std::optional<double> {
        const auto hay = mean_hay(ranch, yard);
        return hay ? hay->price_per_kg : std::nullopt;
    };
    for (std::size_t a = 0; a < ranch.yards.size(); ++a) {
        for (std::size_t b = a + 1; b < ranch.yards.size(); ++b) {
            const auto of_a = price(YardId::at(a));
            const auto of_b = price(YardId::at(b));
            if (!of_a || !of_b || *of_a == *of_b) continue;
            const double less = std::abs(*of_a - *of_b);
            YardBreakEven even{YardId::at(a), YardId::at(b), less,
                               less / *cost_per_kg_mile * units::kMetersPerMile};
            if (*of_a > *of_b) std::swap(even.cheaper, even.dearer);
            all.push_back(even);
        }
    }
    return all;
}

}  // namespace

HaulDay haul_day(const Ranch& ranch, sys_days date) {
    HaulDay day{.date = date};
    if (const WeatherDay* weather = weather_on(ranch, date)) {
        day.snow = weather->snow;
        day.thaw = weather->thaw;
        day.low_c = weather->low_c;
    }
    return day;
}

WasteRange waste_range(const Rig& rig, const Settings& settings) {
    if (rig.waste_given) return {rig.waste_ratio, rig.waste_ratio};
    const auto [low, high] = std::minmax(settings.waste_unroll_ratio, settings.waste_shred_ratio);
    return {low, high};
}

std::size_t HaulWays::slot(YardId yard, PastureId pasture, RigId rig) const {
    return (map_of_[rig.index()] * ranch_->yards.size() + yard.index()) * ranch_->pastures.size() +
           pasture.index();
}

const Route* HaulWays::route(YardId yard, PastureId pasture, RigId rig) const {
    const auto& route = routes_[slot(yard, pasture, rig)];
    return route ? &*route : nullptr;
}

std::string HaulWays::why_not(YardId yard, PastureId pasture, RigId rig) const {
    return map(rig).why_not(yard, pasture, request_.day.date);
}

Result<HaulWays> HaulWays::find(const Ranch& ranch, const Terrain& terrain,
                                const HaulRequest& request) {
    if (auto checked = check(ranch, request); !checked) return fail(checked.error());
    HaulWays ways;
    ways.ranch_ = &ranch;
    ways.terrain_ = &terrain;
    ways.request_ = request;
    // Rigs that the same trails carry share a map of least time.
    const bool share = ranch.settings.ways_by == "time";
    std::vector<std::vector<bool>> kinds;
    for (const Rig& rig : ranch.rigs) {
        const TravelConditions conditions = conditions_of(ranch, request, rig);
        std::vector<bool> carried;
        for (const Trail& trail : ranch.trails)
            carried.push_back(!trail.max_kg || conditions.loaded_kg <= *trail.max_kg);
        const auto known = share ? std::find(kinds.begin(), kinds.end(), carried) : kinds.end();
        ways.map_of_.push_back(static_cast<std::size_t>(known - kinds.begin()));
        if (known != kinds.end()) continue;
        kinds.push_back(std::move(carried));
        ways.maps_.push_back(std::make_unique<TravelMap>(ranch, conditions));
    }
    ways.places_.resize(ranch.pastures.size());
    for (std::size_t p = 0; p < ranch.pastures.size(); ++p) {
        if (!ranch.pastures[p].feed) continue;
        const auto place = middle_of(ranch, PastureId::at(p), terrain, request.day.thaw);
        if (!place) return fail(place.error());
        ways.places_[p] = *place;
        ways.pastures_.push_back(PastureId::at(p));
    }
    ways.routes_.resize(ways.maps_.size() * ranch.yards.size() * ranch.pastures.size());
    for (std::size_t m = 0; m < ways.maps_.size(); ++m)
        for (std::size_t y = 0; y < ranch.yards.size(); ++y)
            for (const PastureId p : ways.pastures_)
                ways.routes_[(m * ranch.yards.size() + y) * ranch.pastures.size() + p.index()] =
                    ways.maps_[m]->route(YardId::at(y), p, ways.place(p));
    return ways;
}

HaulRange day_work(const HaulWays& ways, std::optional<RigId> rig) {
    const Ranch& ranch = ways.ranch();
    HaulRange range;
    for (std::size_t h = 0; h < ranch.herds.size(); ++h) {
        if (ranch.herds[h].fed_in == FedIn::ring) continue;  // set down whole, no rig is compared
        const auto best = cheapest(ways, HerdId::at(h), rig);
        if (!best) {
            ++range.low.herds_not_reached;
            ++range.high.herds_not_reached;
            continue;
        }
        add(range.low, *best);
        HerdHaulInput input{
            .herd = best->herd,
            .pasture = best->pasture,
            .yard = best->yard,
            .rig = best->rig,
            .out = ways.route(best->yard, best->pasture, best->rig),
            .day = ways.request().day,
            .habits = ways.request().habits,
            .waste_ratio = waste_range(ranch[best->rig], ranch.settings).high_ratio};
        add(range.high, herd_haul(input, ranch, ways.terrain()));
        range.herds.push_back(*best);
    }
    return range;
}

HaulAccount haul_account(const HaulWays& ways) {
    const Ranch& ranch = ways.ranch();
    HaulAccount account;
    account.request = ways.request();
    for (const PastureId pasture : ways.pastures())
        for (std::size_t y = 0; y < ranch.yards.size(); ++y)
            for (std::size_t r = 0; r < ranch.rigs.size(); ++r)
                account.trips.push_back(
                    trip_of(ways, YardId::at(y), pasture, RigId::at(r), herd_of(ways, pasture)));
    account.day = day_work(ways, std::nullopt);
    const MeanHay hay = usual_hay(ranch, YardId{0});
    for (std::size_t r = 0; r < ranch.rigs.size(); ++r) {
        const RigId rig = RigId::at(r);
        account.rigs.push_back(
            {rig, day_work(ways, rig),
             distance_cost(ranch[rig], hay, ways.request().habits, Surface::gravel,
                           ways.request().day, ranch.settings)});
        const auto& per_m = account.rigs.back().on_gravel.cost_per_kg_m;
        if (per_m) {
            const double per_mile = *per_m * units::kMetersPerMile;
            account.cost_per_kg_mile =
                std::min(account.cost_per_kg_mile.value_or(per_mile), per_mile);
        }
    }
    for (std::size_t a = 0; a < account.rigs.size(); ++a) {
        for (std::size_t b = a + 1; b < account.rigs.size(); ++b) {
            const DistanceCost& one = account.rigs[a].on_gravel;
            const DistanceCost& other = account.rigs[b].on_gravel;
            if (!one.fixed_cost_per_kg) continue;
            BreakEven even{RigId::at(a), RigId::at(b), break_even_m(one, other), std::nullopt};
            if (!even.one_way_m)
                even.cheaper = *one.fixed_cost_per_kg <= *other.fixed_cost_per_kg ? even.a : even.b;
            account.break_evens.push_back(even);
        }
    }
    account.yard_break_evens = yard_break_evens(ranch, account.cost_per_kg_mile);
    account.problems = ways.map(RigId{0}).problems();
    return account;
}

}  // namespace haylane
