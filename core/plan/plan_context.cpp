#include "core/plan/plan_context.h"

#include "core/base/parallel.h"
#include "core/geometry/boolean_ops.h"
#include "core/geometry/polygon.h"
#include "core/ground/fed_ground.h"
#include "core/plan/laying_wind.h"
#include "core/plan/way_time.h"
#include "core/ranch/rig_turning.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace haylane {

namespace {

// Off what strips round old feed ground take up: buffers hold a little more than their distance,
// and a line exactly that far away is far enough.
constexpr double kStripSlack = 0.998;
constexpr double kCleanSpacings = 5.0;  // assumption
constexpr double kFullHerds = 4.0;      // of up to so many, each gets all of max_candidates

TravelConditions conditions_on(const Ranch& ranch, sys_days day, const Rig& rig,
                               const std::vector<std::string>& blocked) {
    TravelConditions c{.date = day, .blocked = blocked};
    if (const WeatherDay* weather = weather_on(ranch, day)) {
        c.snow = weather->snow;
        c.thaw = weather->thaw;
        c.low_c = weather->low_c;
    }
    double heaviest_bale_kg = 0.0;
    for (const HayLot& lot : ranch.lots) heaviest_bale_kg = std::max(heaviest_bale_kg, lot.bale_kg);
    c.loaded_kg = rig.mass_kg + rig.bales_per_trip * heaviest_bale_kg;
    c.rig_kg = rig.mass_kg;
    c.pto_w = rig.pto_w;
    return c;
}

// Days on which the same gates and trails are open under the same weather share a map.
std::string conditions_key(const Ranch& ranch, const TravelConditions& c) {
    std::string key = fmt::format("{}{}{}|", c.snow, c.thaw, c.thaw ? c.low_c.value_or(99.0) : 0.0);
    for (const Gate& gate : ranch.gates) key += gate.closed.holds(c.date) ? '0' : '1';
    key += '|';
    for (const Trail& trail : ranch.trails) {
        const bool too_heavy = trail.max_kg && c.loaded_kg > *trail.max_kg;
        key += trail.closed.holds(c.date) || too_heavy ? '0' : '1';
    }
    if (ranch.settings.ways_by != "time")
        key += fmt::format("|{}|{}|{}", c.loaded_kg, c.rig_kg, c.pto_w);
    return key;
}

// The part of an area that lies as far from gates as lines start.
Result<MultiPolygon> off_gates(const Ranch& ranch, const Box& box, MultiPolygon area) {
    const double keep_m = ranch.settings.gate_keep_m;
    for (const Gate& gate : ranch.gates) {
        if (keep_m <= 0.0 || !box.grown_by(keep_m).contains(gate.at)) continue;
        const auto near = buffer_point(gate.at, keep_m);
        if (!near) return fail(near.error());
        auto left = subtract(area, *near);
        if (!left) return fail(left.error());
        area = std::move(*left);
    }
    return area;
}

// Work goes with herds times lines weighed for each: past a few herds it is shared out.
int most_candidates(const Ranch& ranch) {
    const double share = kFullHerds / std::max(kFullHerds, static_cast<double>(ranch.herds.size()));
    return std::max(1, static_cast<int>(share * ranch.settings.max_candidates));
}

}  // namespace

PlanContext::PlanContext(const Ranch& ranch, std::vector<std::string> blocked, UserHand hand,
                         int threads)
    : ranch_(ranch),
      blocked_(std::move(blocked)),
      hand_(std::move(hand)),
      threads_(threads),
      terrain_(ranch.terrain ? Terrain(*ranch.terrain) : Terrain()) {}

PlanContext::GroundDay PlanContext::ground_day(PastureId pasture, sys_days day) const {
    return {thaws_on(ranch_, day), forbidden_on(hand_, pasture, day)};
}

Result<const FeedableGround*> PlanContext::ground_with_strip(PastureId pasture, double strip_m,
                                                             const GroundDay& day,
                                                             const GroundNeed& need) {
    const auto key = std::make_tuple(pasture.value, strip_m, day.thaw, day.closed, need);
    const auto found = grounds_.find(key);
    if (found != grounds_.end()) return found->second.get();
    Result<FeedableGround> made = FeedableGround{};
    if (need == GroundNeed{}) {
        GroundConditions conditions{.fence_strip_m = strip_m, .thaw = day.thaw};
        for (const ForbiddenGround* ground : day.closed) conditions.closed.push_back(ground->area);
        made = feedable_ground(ranch_, pasture, terrain_, conditions);
    } else {
        const auto all = ground_with_strip(pasture, strip_m, day, {});
        if (!all) return fail(all.error());
        made = narrowed(pasture, **all, need);
    }
    if (!made) return fail(made.error());
    auto& place = grounds_[key];
    place = std::make_unique<FeedableGround>(std::move(*made));
    return place.get();
}

// The part of the ground that is out of the wind, and off old feed ground, where that is asked.
Result<FeedableGround> PlanContext::narrowed(PastureId pasture, FeedableGround ground,
                                             const GroundNeed& need) {
    MultiPolygon left = ground.region.shape();
    if (need.lee_of_rad) {
        const auto lee = sheltered(pasture, *need.lee_of_rad);
        if (!lee) return fail(lee.error());
        auto in_lee = intersect(left, (*lee)->area);
        if (!in_lee) return fail(in_lee.error());
        left = std::move(*in_lee);
    }
    const auto take_off = [&](const FedBetween& when, double away_m) -> Result<void> {
        const auto fed = fed_ground(ranch_, pasture, when, kStripSlack * away_m);
        if (!fed) return fail(fed.error());
        auto fresh = subtract(left, *fed);
        if (!fresh) return fail(fresh.error());
        left = std::move(*fresh);
        return {};
    };
    if (need.off_gates) {
        auto clear = off_gates(ranch_, ground.region.box(), std::move(left));
        if (!clear) return fail(clear.error());
        left = std::move(*clear);
    }
    const double spacing_m = ranch_.settings.spacing_m;
    if (need.fresh_since) {
        auto taken = take_off({*need.fresh_since, {}}, spacing_m);
        if (taken && need.clean_before)
            taken = take_off({*need.fresh_since, need.clean_before}, kCleanSpacings * spacing_m);
        if (!taken) return fail(taken.error());
    }
    ground.region = Region(std::move(left));
    return ground;
}

Result<const ShelteredGround*> PlanContext::sheltered(PastureId pasture, double wind_from_rad) {
    const auto key = std::make_pair(pasture.value, wind_from_rad);
    const auto found = sheltered_.find(key);
    if (found != sheltered_.end()) return found->second.get();
    auto made = sheltered_ground(ranch_, pasture, terrain_, wind_from_rad);
    if (!made) return fail(made.error());
    auto& place = sheltered_[key];
    place = std::make_unique<ShelteredGround>(std::move(*made));
    return place.get();
}

Result<const FeedableGround*> PlanContext::feedable(PastureId pasture, const Rig& rig, sys_days day,
                                                    const GroundNeed& need) {
    return ground_with_strip(pasture, fence_strip_m(rig, ranch_.settings), ground_day(pasture, day),
                             need);
}

Result<const FeedableGround*> PlanContext::plain_ground(PastureId pasture, sys_days day) {
    return ground_with_strip(pasture, ranch_.settings.fence_clearance_m, ground_day(pasture, day),
                             {});
}

Result<const FeedableGround*> PlanContext::dry_ground(PastureId pasture) {
    return ground_with_strip(pasture, ranch_.settings.fence_clearance_m, {}, {});
}

ReachableLines PlanContext::reachable(const std::vector<Candidate>& all, sys_days day,
                                      const Rig& rig, PastureId pasture,
                                      const std::vector<YardId>& yards) {
    const TravelMap& map = travel(day, rig);
    std::string key = fmt::format("{}|{}", fmt::ptr(&all), fmt::ptr(&map));
    for (const YardId yard : yards) key += fmt::format("|{}", yard.value);
    const auto [at, fresh] = reachable_.try_emplace(key);
    Reachable& place = at->second;
    if (fresh) {
        std::vector<double> times(all.size());
        parallel_for(all.size(), threads_,
                     [&](std::size_t c) { times[c] = way_time_s(map, pasture, yards, all[c]); });
        const bool reaches_all = std::all_of(times.begin(), times.end(),
                                             [](double time) { return std::isfinite(time); });
        for (std::size_t c = 0; c < all.size(); ++c) {
            if (!std::isfinite(times[c])) continue;
            if (!reaches_all) place.some.push_back(all[c]);
            place.way_s.push_back(times[c]);
        }
    }
    return {place.way_s.size() == all.size() ? &all : &place.some, &place.way_s};
}

ReachableLines PlanContext::keep(std::vector<Candidate> some, std::vector<double> way_s) {
    kept_.push_back(std::make_unique<Reachable>(Reachable{std::move(some), std::move(way_s)}));
    return {&kept_.back()->some, &kept_.back()->way_s};
}

const TravelMap& PlanContext::travel(sys_days day, const Rig& rig) {
    const TravelConditions conditions = conditions_on(ranch_, day, rig, blocked_);
    auto& place = travel_[conditions_key(ranch_, conditions)];
    if (!place) {
        place = std::make_unique<TravelMap>(ranch_, conditions);
        note(place->problems());
    }
    return *place;
}

void PlanContext::note(const Problems& found) {
    for (const Problem& problem : found) {
        const bool known = std::any_of(problems_.begin(), problems_.end(), [&](const Problem& p) {
            return p.code == problem.code && p.where == problem.where && p.text == problem.text;
        });
        if (!known) problems_.push_back(problem);
    }
}

Result<const Region*> PlanContext::turning_ground(PastureId pasture, const Rig& rig, sys_days day) {
    const double inside_m = off_tracking_m(rig);
    const bool thaw = thaws_on(ranch_, day);
    auto& place = turning_[std::make_tuple(pasture.value, inside_m, thaw)];
    if (!place) {
        auto ground = drivable_ground(ranch_, pasture, thaw);
        if (ground && inside_m > 0.0) ground = erode(*ground, inside_m);
        if (!ground) return fail(ground.error());
        place = std::make_unique<Region>(std::move(*ground));
    }
    return place.get();
}

Result<LineRequest> PlanContext::line_request(const LinesAsked& asked) {
    const Rig& rig = *asked.rig;
    const auto ground = feedable(asked.pasture, rig, asked.date, asked.ground);
    if (!ground) return fail(ground.error());
    const Settings& s = ranch_.settings;
    LineRequest request{.loads = asked.loads,
                        .line_radius_m = asked.in_rings ? 0.0 : line_radius_m(rig, s).value_or(0.0),
                        .spacing_m = s.spacing_m,
                        .heading_step_rad = s.heading_step_rad,
                        .max_candidates = most_candidates(ranch_),
                        .gates = {},
                        .gate_keep_m = s.gate_keep_m,
                        .discharge = rig.discharge,
                        .in_rings = asked.in_rings,
                        .threads = threads_};
    if (!asked.in_rings) request.wind_from_rad = laying_wind_from_rad(ranch_, rig, asked.date);
    for (const Gate& gate : ranch_.gates) {
        if ((*ground)->region.box().grown_by(100.0).contains(gate.at))
            request.gates.push_back(gate.at);
    }
    if (!asked.forward_turns) return request;
    const auto turning = turning_ground(asked.pasture, rig, asked.date);
    if (!turning) return fail(turning.error());
    request.turn_radius_m = driven_radius_m(rig);
    request.drivable = *turning;
    return request;
}

Result<const std::vector<Candidate>*> PlanContext::candidates(const LinesAsked& asked) {
    const auto ground = feedable(asked.pasture, *asked.rig, asked.date, asked.ground);
    if (!ground) return fail(ground.error());
    const auto request = line_request(asked);
    if (!request) return fail(request.error());
    std::string key =
        fmt::format("{}|{}|{}|{}|{}", fmt::ptr(*ground), request->line_radius_m,
                    fmt::ptr(request->drivable), request->turn_radius_m, request->in_rings);
    if (request->wind_from_rad)
        key += fmt::format("|wind {} {}", *request->wind_from_rad,
                           static_cast<int>(request->discharge));
    for (const auto& load : asked.loads) key += fmt::format("|{}:{}", load.bales, load.length_m);
    auto& place = candidates_[key];
    if (!place)
        place = std::make_unique<std::vector<Candidate>>(
            candidate_lines(**ground, *request, curves(**ground, request->line_radius_m)));
    return place.get();
}

const GroundCurves& PlanContext::curves(const FeedableGround& ground, double line_radius_m) {
    const auto [at, fresh] = curves_.try_emplace({&ground, line_radius_m});
    if (fresh) at->second = curves_on(ground, line_radius_m, ranch_.settings.spacing_m, threads_);
    return at->second;
}

bool has_shelter(const Ranch& ranch, PastureId pasture) {
    const MultiPolygon& shape = ranch[pasture].shape;
    const auto inside = [&](Point p) { return contains(shape, p); };
    return std::any_of(ranch.shelter.begin(), ranch.shelter.end(), [&](const Shelter& s) {
        if (std::any_of(s.points.begin(), s.points.end(), inside)) return true;
        const auto line_inside = [&](const Polyline& line) {
            return std::any_of(line.begin(), line.end(), inside);
        };
        if (std::any_of(s.lines.begin(), s.lines.end(), line_inside)) return true;
        return std::any_of(s.area.begin(), s.area.end(), [&](const Polygon& part) {
            return std::any_of(part.outer.begin(), part.outer.end(), inside);
        });
    });
}

}  // namespace haylane
