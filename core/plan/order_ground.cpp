// Swaths stand a spacing apart, or so far that one pass gives no more than the dose.
// Days out of a cold wind, and days after calving has begun, are chains of their own: they open
// blocks where they ask for, and the herd's other block is gone on with afterwards. Where a rig
// minds the wind, blocks along it may be opened as well.
#include "core/plan/order_ground.h"

#include "core/ground/fed_ground.h"
#include "core/plan/feed_blocks.h"
#include "core/plan/load_out.h"
#include "core/plan/lost_hay.h"
#include "core/plan/way_time.h"
#include "core/ranch/rig_turning.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace haylane {

namespace {

// The greatest of the chain's feedings.
DayLength greatest(const OrderGround& ground, const OrderChain& chain) {
    DayLength all;
    for (const std::size_t f : chain.feedings) {
        const DayLength one = length_of(*ground.requests[f]);
        all.total_m = std::max(all.total_m, one.total_m);
        all.longest_m = std::max(all.longest_m, one.longest_m);
        all.bales_per_m = std::max(all.bales_per_m, one.bales_per_m);
    }
    return all;
}

// The first wind that a rig of the chain minds.
std::optional<double> wind_of(const OrderGround& ground, const OrderChain& chain) {
    for (const std::size_t f : chain.feedings)
        if (ground.requests[f]->wind_from_rad) return ground.requests[f]->wind_from_rad;
    return std::nullopt;
}

// The herd's last straight lines in the pasture this season, and how many days went beside them.
struct LastLines {
    MultiPolyline lines;
    int days = 0;
};

// Calving herds go on only beside lines laid since they began; lines laid out of a cold wind are
// gone on with in such a wind only, and others out of it.
bool goes_on_from(const Ranch& ranch, const FeedingRecord& record, const ScheduledFeeding& first) {
    const auto calving = calving_since(ranch, first.herd, first.date);
    if (first.ground.fresh_since && calving && record.to < *calving) return false;
    return is_cold_and_windy(ranch, record.to) == first.ground.lee_of_rad.has_value();
}

LastLines last_lines(const Ranch& ranch, const ScheduledFeeding& first, sys_days from) {
    const sys_days since = season_start(from, ranch.settings.season_start);
    std::vector<const FeedingRecord*> own;
    for (const FeedingRecord& record : ranch.feedings) {
        if (record.herd != first.herd || record.pasture != first.pasture) continue;
        if (record.to < since || record.to >= from) continue;
        if (rows_fed(record).empty()) continue;
        if (goes_on_from(ranch, record, first)) own.push_back(&record);
    }
    std::stable_sort(own.begin(), own.end(),
                     [](const auto* a, const auto* b) { return a->to > b->to; });
    LastLines last;
    for (const FeedingRecord* record : own) {
        const MultiPolyline lines = rows_fed(*record);
        if (lines.empty() || lines.front().size() < 2) continue;
        if (last.lines.empty()) {
            last.lines = lines;
            last.days = 1;
            continue;
        }
        if (!are_parallel(lines.front(), last.lines.front())) break;
        ++last.days;
    }
    return last;
}

bool is_held(const FeedSchedule& schedule, std::size_t f) {
    return schedule.feedings[f].by_hand == ByHand::held;
}

MultiPolyline held_lines(const FeedSchedule& schedule, std::size_t f) {
    return paths_of(schedule.feedings[f].candidates->front());
}

bool are_same(const MultiPolyline& a, const MultiPolyline& b) {
    constexpr double kSame_m = 0.1;
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const Polyline& one, const Polyline& other) {
                          return distance_m(one.front(), other.front()) <= kSame_m &&
                                 distance_m(one.back(), other.back()) <= kSame_m;
                      });
}

// Whether the block, filled by the chain's feedings, has those that are held where they are held.
bool fills_as_held(const Site& block, const OrderChain& chain, const FeedSchedule& schedule,
                   const OrderGround& all) {
    std::vector<SiteDay> days;
    for (const std::size_t f : chain.feedings) days.push_back(all.days[f]);
    const std::vector<Candidate> filled = fill_site(block, days);
    for (std::size_t i = 0; i < chain.feedings.size(); ++i) {
        const std::size_t f = chain.feedings[i];
        if (!is_held(schedule, f)) continue;
        if (i >= filled.size() || !are_same(held_lines(schedule, f), paths_of(filled[i])))
            return false;
    }
    return true;
}

// The block from the swath of these lines on; nullopt when they are not in it or lie across it.
std::optional<Site> block_from(const Site& block, const MultiPolyline& lines) {
    const Polyline& line = lines.front();
    const Polyline along{block.corner, block.corner + along_azimuth(block.azimuth_rad)};
    const auto swath = swath_at(block, lerp(line.front(), line.back(), 0.5));
    if (!swath || !are_parallel(line, along)) return std::nullopt;
    return from_swath(block, *swath);
}

// Fills the block under way where feedings of the chain are held: the one that they are laid out
// in; else, where the first is held, the one it lies in, away from the side that it is nearer to.
// What lies before a first held line had no room for it, and is left out.
void open_held_block(const FeedSchedule& schedule, const OrderGround& all, OrderChain& chain) {
    const auto held = [&](std::size_t f) { return is_held(schedule, f); };
    if (std::none_of(chain.feedings.begin(), chain.feedings.end(), held)) return;
    const bool first_held = held(chain.feedings.front());
    std::optional<Site> nearest;
    for (const Site& block : chain.blocks) {
        std::optional<Site> rest = block;
        if (first_held) rest = block_from(block, held_lines(schedule, chain.feedings.front()));
        if (!rest) continue;
        if (fills_as_held(block, chain, schedule, all)) {
            chain.open = {*rest};
            chain.open_is_new = !first_held;
            return;
        }
        if (first_held && (!nearest || rest->swaths > nearest->swaths)) nearest = rest;
    }
    if (nearest) chain.open = {*nearest};
}

// The lines held on the chain's first days: what comes after goes on beside the last of them.
LastLines held_first(const FeedSchedule& schedule, const OrderChain& chain) {
    LastLines held;
    for (const std::size_t f : chain.feedings) {
        if (!is_held(schedule, f)) break;
        held.lines = held_lines(schedule, f);
        ++held.days;
    }
    return held;
}

// Adds one feeding's ground, loads, way and chain.
Result<void> add_feeding(PlanContext& context, const ScheduledFeeding& feeding, OrderGround& all) {
    const Ranch& ranch = context.ranch();
    const Rig& rig = ranch[feeding.rig];
    const auto ground = context.feedable(feeding.pasture, rig, feeding.date, feeding.ground);
    if (!ground) return fail(ground.error());
    auto request = context.line_request(lines_asked(ranch, feeding, feeding.lay_kg_per_m));
    if (!request) return fail(request.error());
    all.requests.push_back(std::make_unique<LineRequest>(std::move(*request)));
    all.days.push_back({*ground, all.requests.back().get()});
    all.travel.push_back(&context.travel(feeding.date, rig));
    all.yards.push_back(yards_of(feeding.loads));
    return {};
}

// Cows that calve are fed well away from what was fed on before, if blocks there have room for all
// of the chain's days.
Result<void> go_well_away(PlanContext& context, const FeedSchedule& schedule,
                          const SiteOptions& options, OrderGround& all, const OrderChain& chain) {
    const Ranch& ranch = context.ranch();
    const ScheduledFeeding& first = schedule.feedings[chain.feedings.front()];
    const auto calving = calving_since(ranch, first.herd, first.date);
    if (!first.ground.fresh_since || !calving) return {};
    std::vector<const FeedableGround*> clean;
    for (const std::size_t f : chain.feedings) {
        const ScheduledFeeding& feeding = schedule.feedings[f];
        GroundNeed need = feeding.ground;
        need.clean_before = calving;
        const auto ground =
            context.feedable(feeding.pasture, ranch[feeding.rig], feeding.date, need);
        if (!ground) return fail(ground.error());
        clean.push_back(*ground);
    }
    const DayLength day = greatest(all, chain);
    const SiteDay first_day{clean.front(), all.days[chain.feedings.front()].request};
    const auto blocks = feed_blocks({first, first_day, day}, options, ranch.settings.site_days);
    if (room_in_m(blocks) < day.total_m * static_cast<double>(clean.size())) return {};
    for (std::size_t i = 0; i < clean.size(); ++i) all.days[chain.feedings[i]].ground = clean[i];
    return {};
}

// What the fence strip lacks for a quarter turn beyond a line's end, a metre off the fence.
double turning_room_m(const Ranch& ranch, RigId rig) {
    const double need_m = driven_radius_m(ranch[rig]) + off_tracking_m(ranch[rig]) + 1.0;
    return std::max(0.0, need_m - fence_strip_m(ranch[rig], ranch.settings));
}

// Blocks a chain may open, and the one its herd has under way.
Result<void> add_blocks(PlanContext& context, const FeedSchedule& schedule,
                        const PlanRequest& request, OrderGround& all, OrderChain& chain) {
    const Ranch& ranch = context.ranch();
    const Settings& s = ranch.settings;
    const ScheduledFeeding& first = schedule.feedings[chain.feedings.front()];
    const DayLength day = greatest(all, chain);
    const double dose = ranch[first.pasture].dose_bales_per_m2.value_or(s.dose_bales_per_m2);
    SiteOptions options{.room_m = day.total_m,
                        .spacing_m = std::max(s.spacing_m, day.bales_per_m / dose),
                        .heading_step_rad = s.heading_step_rad,
                        .end_keep_m = turning_room_m(ranch, first.rig),
                        .threads = request.threads};
    if (auto gone = go_well_away(context, schedule, options, all, chain); !gone) return gone;
    const BlocksAsked asked{first, all.days[chain.feedings.front()], day};
    chain.blocks = feed_blocks(asked, options, s.site_days);
    if (const auto wind = wind_of(all, chain)) {
        SiteOptions along = options;
        along.azimuth_rad = wind;
        const std::vector<Site> more = feed_blocks(asked, along, s.site_days);
        chain.blocks.insert(chain.blocks.end(), more.begin(), more.end());
    }
    open_held_block(schedule, all, chain);
    if (!chain.open.empty()) return {};
    LastLines last = held_first(schedule, chain);
    if (last.days == 0) last = last_lines(ranch, first, request.from);
    options.swaths = static_cast<int>(s.site_days) - last.days;
    if (options.swaths > 0) chain.open = sites_beside(last.lines, options);
    return {};
}

// A chain: one herd on ground that is asked to be alike. Thaw days stay in it, since a block that
// is not soft is gone on with.
struct ChainKey {
    int herd = 0;
    int pasture = 0;
    std::optional<double> lee_of_rad;
    std::optional<sys_days> fresh_since;
    friend auto operator<=>(const ChainKey&, const ChainKey&) = default;
};

}  // namespace

Result<OrderGround> order_ground(PlanContext& context, const FeedSchedule& schedule,
                                 const PlanRequest& request) {
    OrderGround all;
    std::map<ChainKey, std::size_t> chain_of;
    for (std::size_t f = 0; f < schedule.feedings.size(); ++f) {
        const ScheduledFeeding& feeding = schedule.feedings[f];
        if (auto added = add_feeding(context, feeding, all); !added) return fail(added.error());
        const ChainKey key{feeding.herd.value, feeding.pasture.value, feeding.ground.lee_of_rad,
                           feeding.ground.fresh_since};
        const auto [at, fresh] = chain_of.try_emplace(key, all.chains.size());
        if (fresh) all.chains.emplace_back();
        all.chains[at->second].feedings.push_back(f);
    }
    for (OrderChain& chain : all.chains) {
        auto added = add_blocks(context, schedule, request, all, chain);
        if (!added) return fail(added.error());
    }
    // Ground in the lee is scarce: it goes to the days that ask for it before others take it.
    std::stable_partition(all.chains.begin(), all.chains.end(), [&](const OrderChain& chain) {
        return schedule.feedings[chain.feedings.front()].ground.lee_of_rad.has_value();
    });
    for (OrderChain& chain : all.chains)
        std::erase_if(chain.feedings,
                      [&](std::size_t f) { return schedule.feedings[f].by_hand != ByHand::no; });
    for (std::size_t f = 0; f < schedule.feedings.size(); ++f) {
        const ByHand by_hand = schedule.feedings[f].by_hand;
        if (by_hand == ByHand::held) all.held.push_back(f);
        if (by_hand == ByHand::another) all.last.push_back(f);
    }
    return all;
}

OrderInput order_input(const LineChoiceInput& choice, const OrderGround& ground,
                       const FeedSchedule& schedule, const Ranch& ranch) {
    OrderInput input;
    input.choice = &choice;
    input.held = ground.held;
    input.last = ground.last;
    input.chains = ground.chains;
    input.days = ground.days;
    input.move_worth_s = ranch.settings.move_worth_s;
    input.way_s = [&ground, &schedule](std::size_t f, const Candidate& lines) {
        return way_time_s(*ground.travel[f], schedule.feedings[f].pasture, ground.yards[f], lines);
    };
    input.lost_s = [&ranch, &schedule](std::size_t f, const Candidate& lines, double way_s) {
        return lost_hay_s(ranch, schedule.feedings[f], lines, way_s);
    };
    return input;
}

}  // namespace haylane
