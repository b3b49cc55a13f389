// Days in order, herds in file order within a day. For each herd the pastures it may use are tried
// in this order: where it is, another listed one (at most one move a week), its sacrifice ground;
// in each the ground that weather and calving ask for, then less of it; on that the rigs from the
// cheapest. The first that has a legal line stands.
#include "core/plan/feed_schedule.h"

#include "core/plan/hand_lines.h"
#include "core/plan/held_back.h"
#include "core/plan/held_feeding.h"
#include "core/plan/lay_feeding.h"
#include "core/plan/load_out.h"
#include "core/plan/need_account.h"
#include "core/plan/rank_rigs.h"
#include "core/plan/ring_feeding.h"
#include "core/ration/requirement.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kCakeDmRatio = 0.90;  // air-dry feeds, common practice, no source

std::string name_day(const Herd& herd, sys_days day) {
    return fmt::format("herd {}, {}", herd.name, format_day(day));
}

// Each part alone, the largest first.
std::vector<MultiPolygon> largest_first(const MultiPolygon& shape) {
    std::vector<MultiPolygon> parts;
    for (const Polygon& part : shape) parts.push_back({part});
    std::stable_sort(parts.begin(), parts.end(), [](const MultiPolygon& a, const MultiPolygon& b) {
        return area_m2(a) > area_m2(b);
    });
    return parts;
}

// One herd from day to day.
struct Running {
    NeedAccount need;
    std::optional<sys_days> last_move;
    std::optional<PastureId> now_in;
};

class Scheduler {
  public:
    Scheduler(PlanContext& context, const PlanRequest& request,
              const std::vector<OverLimit>& over_limit)
        : context_(context),
          ranch_(context.ranch()),
          request_(request),
          over_limit_(over_limit),
          running_(ranch_.herds.size()) {
        for (const HayLot& lot : ranch_.lots) schedule_.lots_left.push_back(lot.bales);
    }

    Result<FeedSchedule> run() {
        for (int d = 0; d < request_.days; ++d) {
            const sys_days day = request_.from + std::chrono::days{d};
            for (std::size_t h = 0; h < ranch_.herds.size(); ++h) {
                if (d % std::max(1, ranch_.herds[h].feed_every_days) != 0) continue;
                if (on_record(ranch_, HerdId::at(h), day)) continue;  // needs no plan
                if (request_.progress.stopped()) return fail(plan_cancelled());
                if (auto error = feed(HerdId::at(h), day)) return fail(std::move(*error));
            }
        }
        note_unused_holds(ranch_, request_, schedule_);
        return std::move(schedule_);
    }

  private:
    // nullopt when the herd got its feed (or still has enough of the last).
    std::optional<Error> feed(HerdId herd, sys_days day) {
        held_ = held_on(request_.hand, herd, day);
        std::optional<Error> last;
        for (const PastureId pasture : pastures_to_try(herd, day)) {
            auto made = feed_in(herd, day, pasture);
            if (made) {
                if (*made) accept(std::move(**made));
                return std::nullopt;
            }
            last = made.error();
            if (last->code == "no_other_line") return last;
        }
        if (held_ != nullptr && !last)
            return held_line_error("It lies in no pasture.", name_day(ranch_[herd], day));
        if (!last)
            last = Error{"no_line", "This herd has no pasture that may be fed in.",
                         name_day(ranch_[herd], day),
                         "List a pasture with feed = yes for it in herds.csv."};
        return last;
    }

    // Where a held line lies is the user's choice.
    std::vector<PastureId> pastures_to_try(HerdId herd, sys_days day) {
        if (held_ != nullptr) {
            const auto pasture = pasture_under(ranch_, held_->lines);
            return pasture ? std::vector{*pasture} : std::vector<PastureId>{};
        }
        const Running& run = running_[herd.index()];
        std::vector<PastureId> order{home_of(herd, day)};
        const bool may_move = !run.last_move || day - *run.last_move >= std::chrono::days{7};
        const auto add = [&](bool sacrifice) {
            for (const PastureId p : ranch_[herd].pastures) {
                if (ranch_[p].sacrifice == sacrifice &&
                    std::find(order.begin(), order.end(), p) == order.end())
                    order.push_back(p);
            }
        };
        if (may_move) add(false);
        add(true);
        std::erase_if(order, [&](PastureId p) { return !ranch_[p].feed; });
        return order;
    }

    // Where the herd is: a move that the plan made holds for a week, unless the moves table has a
    // later one.
    PastureId home_of(HerdId herd, sys_days day) const {
        const Running& run = running_[herd.index()];
        const PastureId listed = pasture_on(ranch_, herd, day);
        if (!run.now_in || day - *run.last_move >= std::chrono::days{7}) return listed;
        const bool moved_since =
            std::any_of(ranch_.moves.begin(), ranch_.moves.end(), [&](const Move& move) {
                return move.herd == herd && move.date > *run.last_move && move.date <= day;
            });
        return moved_since ? listed : *run.now_in;
    }

    // A held line lies where it lies.
    std::vector<GroundNeed> grounds_to_try(HerdId herd, sys_days day) const {
        if (held_ != nullptr) return {GroundNeed{}};
        return as_it_yields(ground_need(ranch_, herd, day));
    }

    // nullopt when nothing is due.
    Result<std::optional<ScheduledFeeding>> feed_in(HerdId herd, sys_days day, PastureId pasture) {
        const auto ground = context_.plain_ground(pasture, day);
        if (!ground) return fail(ground.error());
        if ((*ground)->region.empty())
            return fail(
                {"no_line",
                 "No ground here may be fed on: setbacks, fence strip and off-limits ground cover "
                 "all of it.",
                 name_feeding(ranch_, herd, day, pasture),
                 "Check the setbacks in off_limits, or list another pasture for this herd."});
        Point place;
        std::vector<RankedRig> rigs;
        for (const MultiPolygon& part : largest_first((*ground)->region.shape())) {
            place = label_point(part);
            rigs = rank_rigs(context_, day, herd, pasture, place);
            if (!rigs.empty()) break;
        }
        if (rigs.empty())
            return fail({"yard_unreachable", why_no_way(day, pasture),
                         name_feeding(ranch_, herd, day, pasture),
                         "Open or add a gate, or draw the missing trail."});
        std::optional<Error> first;
        std::optional<Error> last;
        for (const GroundNeed& need : grounds_to_try(herd, day)) {
            if (const OverLimit* over = over_limit(herd, day, pasture, need);
                over != nullptr && over->at_thinnest) {
                last = limit_error(herd, day, pasture);
                continue;
            }
            for (const RankedRig& ranked : rigs) {
                if (held_ != nullptr && held_->rig && *held_->rig != ranked.rig) continue;
                auto made = feed_with(herd, day, pasture, ranked.rig, place, need);
                if (made) return made;
                last = made.error();
                if (!first) first = last;
                if (last->code == "yard_unreachable" || last->code == "geometry_failed")
                    return fail(*last);
            }
        }
        if (!last)
            last = held_line_error(
                fmt::format("{} has no way there that day.", ranch_[*held_->rig].name),
                name_feeding(ranch_, herd, day, pasture));
        return fail(held_ != nullptr && first ? *first : *last);
    }

    [[nodiscard]] Error limit_error(HerdId herd, sys_days day, PastureId pasture) const {
        if (held_ != nullptr)
            return held_line_error("It takes the ground over the pasture's limit.",
                                   name_feeding(ranch_, herd, day, pasture));
        return {
            "no_line",
            "Every line here would take the ground over the pasture's limit, even at the least "
            "lay rate.",
            name_feeding(ranch_, herd, day, pasture),
            "List another pasture for this herd, or check the pasture's limits and the feedings "
            "on record."};
    }

    // The last word on it; nullptr when it keeps the limits, as far as is known.
    [[nodiscard]] const OverLimit* over_limit(HerdId herd, sys_days day, PastureId pasture,
                                              const std::optional<GroundNeed>& need) const {
        const auto at =
            std::find_if(over_limit_.rbegin(), over_limit_.rend(), [&](const OverLimit& over) {
                return over.herd == herd && over.date == day && over.pasture == pasture &&
                       (!need || over.ground == *need);
            });
        return at != over_limit_.rend() ? &*at : nullptr;
    }

    std::string why_no_way(sys_days day, PastureId pasture) {
        const TravelMap& map = context_.travel(day, ranch_.rigs.front());
        return ranch_.yards.empty() ? "There is no bale yard."
                                    : map.why_not(YardId::at(0), pasture, day);
    }

    Result<std::optional<ScheduledFeeding>> feed_with(HerdId herd, sys_days day, PastureId pasture,
                                                      RigId rig, Point place,
                                                      const GroundNeed& need) {
        ScheduledFeeding f{.date = day,
                           .days = std::max(1, ranch_[herd].feed_every_days),
                           .herd = herd,
                           .pasture = pasture,
                           .rig = rig,
                           .ground = need};
        const double mean_bale = mean_bale_dm_kg(ranch_, schedule_.lots_left);
        f.need = feed_need(ranch_, herd, day, f.days, waste_ratio_of(ranch_, herd, rig),
                           has_shelter(ranch_, pasture), mean_bale);
        const bool bales_held = held_ != nullptr && !held_->bales.empty();
        NeedAccount& account = running_[herd.index()].need;
        if (!bales_held && !account.due(f.need)) {
            account.skip(f.need);
            return std::nullopt;
        }
        auto lots = bales_held ? held_picks(f, place) : pick_lots(f, place);
        if (!lots) return fail(name_lot_error(lots.error(), herd, day));
        f.lots = std::move(*lots);
        f.mix = mix_of(ranch_, f.lots.picks);
        auto amounts = account.amounts(f.need, f.mix, waste_ratio_of(ranch_, herd, rig));
        f.need = amounts.need;
        f.needed_kg = amounts.needed_kg;
        f.loads = split_loads(ranch_, f.lots.picks, ranch_[rig].bales_per_trip);
        return lay_out(std::move(f));
    }

    Error name_lot_error(Error error, HerdId herd, sys_days day) const {
        error.where = name_day(ranch_[herd], day);
        error.remedy += " Or plan fewer days.";
        return error;
    }

    Result<LotChoice> pick_lots(ScheduledFeeding& f, Point place) {
        LotRequest request = lot_request(f);
        const std::vector<double> share = free_share(ranch_, schedule_.lots_left, f.date);
        const bool milking = is_lactating(stage_on(ranch_[f.herd], f.date));
        request.offers = offers(f, place, milking ? std::vector<double>(share.size(), 1.0) : share);
        auto choice = choose_lots(request);
        const bool short_of =
            !choice || choice->cp_short_ratio > 0.0 || choice->tdn_short_ratio > 0.0;
        if (short_of && !milking) {  // held-back hay gives way before the cows do
            request.offers = offers(f, place, std::vector<double>(share.size(), 1.0));
            auto second = choose_lots(request);
            if (second) choice = std::move(second);
        }
        return choice;
    }

    Result<LotChoice> held_picks(const ScheduledFeeding& f, Point place) {
        LotRequest request = lot_request(f);
        request.offers = offers(f, place, std::vector<double>(ranch_.lots.size(), 1.0));
        return held_lots(ranch_, *held_, request);
    }

    LotRequest lot_request(const ScheduledFeeding& f) const {
        const Herd& herd = ranch_[f.herd];
        const NeedAccount& account = running_[f.herd.index()].need;
        const Stage stage = stage_on(herd, f.date);
        LotRequest request;
        request.least_kg = account.due_kg(f.need);
        if (f.need.bales) request.bales = account.due_bales(*f.need.bales);
        if (herd.round_to == RoundTo::load)
            request.round_to_bales = std::max(1, ranch_[f.rig].bales_per_trip);
        request.requirement = requirement(stage);
        request.cake_dm_kg = herd.cake_kg * herd.head * f.days * kCakeDmRatio;
        request.cake_cp_ratio = herd.cake_cp_ratio;
        request.cake_tdn_ratio = herd.cake_tdn_ratio;
        request.waste_ratio = waste_ratio_of(ranch_, f.herd, f.rig);
        request.straw_limit_ratio = ranch_.settings.straw_limit_ratio;
        request.pregnant = is_pregnant(stage);
        return request;
    }

    std::vector<LotOffer> offers(const ScheduledFeeding& f, Point place,
                                 const std::vector<double>& share) {
        std::vector<LotOffer> list;
        const RankPrices prices = rank_prices(ranch_.settings);
        for (std::size_t l = 0; l < ranch_.lots.size(); ++l) {
            const HayLot& lot = ranch_.lots[l];
            const bool kept = !lot.keep_to.empty() && lot.keep_to != ranch_[f.herd].name &&
                              lot.keep_to != ranch_[f.pasture].name;
            const int available = static_cast<int>(std::floor(schedule_.lots_left[l] * share[l]));
            const double haul =
                haul_cost_per_bale(context_, f.date, ranch_[f.rig], lot.yard, f.pasture, place);
            if (kept || available <= 0 || haul == std::numeric_limits<double>::infinity()) continue;
            list.push_back(
                {.lot = LotId::at(l),
                 .available = available,
                 .bale_dm_kg = lot.bale_dm_kg(),
                 .cost_per_bale = haul + lot.price_per_kg.value_or(prices.hay_per_kg) * lot.bale_kg,
                 .cp_ratio = lot.quality.cp_ratio,
                 .tdn_ratio = lot.quality.tdn_ratio,
                 .straw = lot.kind == HayKind::straw,
                 .high_nitrate =
                     lot.nitrate_ppm.value_or(0.0) >= ranch_.settings.nitrate_caution_ppm,
                 .feed_first = lot.feed_first});
        }
        return list;
    }

    Result<std::optional<ScheduledFeeding>> lay_out(ScheduledFeeding f) {
        const bool thin = over_limit(f.herd, f.date, f.pasture, f.ground) != nullptr;
        auto laid = held_ != nullptr ? lay_held(context_, *held_, std::move(f), schedule_.problems)
                                     : lay_feeding(context_, std::move(f), thin);
        if (!laid) return fail(laid.error());
        return std::move(*laid);
    }

    void accept(ScheduledFeeding f) {
        for (const LotPick& pick : f.lots.picks)
            schedule_.lots_left[pick.lot.index()] -= pick.count;
        running_[f.herd.index()].need.feed(f.need, f.mix);
        const PastureId home = home_of(f.herd, f.date);
        if (f.pasture != home) note_move(f, home);
        if (over_limit(f.herd, f.date, f.pasture, f.ground) != nullptr) note_thin(f);
        schedule_.feedings.push_back(std::move(f));
    }

    void note_move(const ScheduledFeeding& f, PastureId from) {
        running_[f.herd.index()].last_move = f.date;
        running_[f.herd.index()].now_in = f.pasture;
        const bool held = f.by_hand == ByHand::held;
        schedule_.problems.push_back(
            {"moved_pasture", Severity::warning, name_day(ranch_[f.herd], f.date),
             held ? fmt::format("The herd is in {}; the line that is held lies in {}.",
                                ranch_[from].name, ranch_[f.pasture].name)
                  : fmt::format("No legal line in {}{}: fed in {} instead.", ranch_[from].name,
                                over_limit(f.herd, f.date, from, std::nullopt) != nullptr
                                    ? " keeps the ground under its limit"
                                    : "",
                                ranch_[f.pasture].name),
             held ? "Move the herd, or let the line go."
                  : "Move the herd, or check why that pasture has no room."});
    }

    void note_thin(const ScheduledFeeding& f) {
        schedule_.problems.push_back({"laid_thinner", Severity::info,
                                      name_feeding(ranch_, f.herd, f.date, f.pasture),
                                      "Laid at the rig's least rate: a thicker line would take the "
                                      "ground over the pasture's limit.",
                                      "Nothing to do; a longer line takes more driving."});
    }

    PlanContext& context_;
    const Ranch& ranch_;
    const PlanRequest& request_;
    const std::vector<OverLimit>& over_limit_;
    std::vector<Running> running_;
    const HeldFeeding* held_ = nullptr;  // for the herd and day in hand
    FeedSchedule schedule_;
};

}  // namespace

PastureId pasture_on(const Ranch& ranch, HerdId herd, sys_days day) {
    PastureId now = ranch[herd].pastures.front();
    std::optional<sys_days> since;
    for (const Move& move : ranch.moves) {
        if (move.herd != herd || move.date > day || (since && move.date < *since)) continue;
        now = move.pasture;
        since = move.date;
    }
    return now;
}

std::string name_feeding(const Ranch& ranch, HerdId herd, sys_days day, PastureId pasture) {
    return fmt::format("{}, pasture {}", name_day(ranch[herd], day), ranch[pasture].name);
}

Result<FeedSchedule> feed_schedule(PlanContext& context, const PlanRequest& request,
                                   const std::vector<OverLimit>& over_limit) {
    return Scheduler(context, request, over_limit).run();
}

}  // namespace haylane
