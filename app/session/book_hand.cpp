#include "app/session/book_hand.h"

#include "app/session/find_named.h"
#include "app/session/kept_plans.h"
#include "gis/book/plan_store.h"

#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

// A hold in the ranch's own terms, or the first name that it does not have.
struct Resolver {
    const Ranch& ranch;
    std::string unknown;

    template <class IdType, class T>
    std::optional<IdType> id(const std::vector<T>& items, const std::string& name) {
        const auto found = find_named(items, name);
        if (!found && unknown.empty()) unknown = name;
        if (!found) return std::nullopt;
        return IdType::at(*found);
    }

    std::optional<HeldFeeding> feeding(const StoredHold& hold) {
        HeldFeeding held{.date = hold.date, .lines = hold.lines};
        if (const auto herd = id<HerdId>(ranch.herds, hold.herd)) held.herd = *herd;
        if (!hold.rig.empty()) held.rig = id<RigId>(ranch.rigs, hold.rig);
        for (const LotBales& draw : hold.bales) {
            const auto lot = id<LotId>(ranch.lots, draw.lot);
            if (lot)
                held.bales.push_back(
                    {*lot, ranch[*lot].yard, static_cast<int>(std::lround(draw.bales))});
        }
        if (!unknown.empty()) return std::nullopt;
        return held;
    }

    std::optional<ForbiddenGround> ground(const StoredHold& hold) {
        ForbiddenGround ground{
            .name = hold.name, .area = hold.area, .from = hold.date, .to = hold.date_to};
        if (!hold.pasture.empty()) ground.pasture = id<PastureId>(ranch.pastures, hold.pasture);
        if (!unknown.empty()) return std::nullopt;
        return ground;
    }
};

}  // namespace

BookHand book_hand(const Ranch& ranch, const std::vector<StoredHold>& holds) {
    BookHand book;
    for (const StoredHold& hold : holds) {
        Resolver resolver{ranch, ""};
        if (hold.kind == HoldKind::forbid) {
            if (auto ground = resolver.ground(hold))
                book.hand.forbidden.push_back(std::move(*ground));
        } else if (auto held = resolver.feeding(hold)) {
            book.hand.held.push_back(std::move(*held));
        }
        if (resolver.unknown.empty()) continue;
        book.problems.push_back(
            {"hold_not_used", Severity::warning, fmt::format("table locks, number {}", hold.number),
             fmt::format("The ranch has no {}, which is held or closed under this number.",
                         resolver.unknown),
             "Let it go, or give the name back to what it was."});
    }
    return book;
}

Result<std::vector<AnotherWay>> another_way(const OpenRanch& open, HerdId herd, sys_days day) {
    const auto plans = stored_plans(open.book);
    if (!plans) return fail(plans.error());
    const std::string& name = open.checked.ranch[herd].name;
    std::vector<AnotherWay> asked;
    bool go_on = true;
    for (auto plan = plans->rbegin(); go_on && plan != plans->rend(); ++plan) {
        const auto days = planned_days(plan->json);
        if (!days) return fail(days.error());
        for (const PlannedDay& planned : *days) {
            if (planned.date != day || planned.herd != name) continue;
            AnotherWay way{.herd = herd, .date = day};
            for (const FedLine& line : lines_of(planned, *plan)) way.unlike.push_back(line.path);
            asked.push_back(std::move(way));
            go_on = planned.another;
        }
    }
    if (asked.empty())
        return fail({"no_plan", fmt::format("Nothing was planned for {} that day.", name),
                     format_day(day), "Plan the days first, then ask for another way."});
    return asked;
}

}  // namespace haylane
