#include "core/plan/held_feeding.h"

#include "core/plan/hand_lines.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace haylane {

Result<LotChoice> held_lots(const Ranch& ranch, const HeldFeeding& held,
                            const LotRequest& request) {
    std::vector<LotPick> picks;
    for (const BaleDraw& draw : held.bales) {
        int left = 0;
        for (const LotOffer& offer : request.offers)
            if (offer.lot == draw.lot) left = offer.available;
        if (left < draw.count)
            return fail({"hay_short",
                         fmt::format("{} bales of {} are held for that day, and {} can be fed.",
                                     draw.count, ranch[draw.lot].name, left),
                         "", "Let the day go, or hold its line alone."});
        picks.push_back({draw.lot, draw.count});
    }
    return lots_as_given(request, picks);
}

Result<ScheduledFeeding> lay_held(PlanContext& context, const HeldFeeding& held,
                                  ScheduledFeeding feeding, Problems& problems) {
    auto hand = hand_lines(context, feeding, held.lines);
    if (!hand) return fail(hand.error());
    const std::string where =
        name_feeding(context.ranch(), feeding.herd, feeding.date, feeding.pasture);
    if (!hand->may_be_laid())
        return fail(held_line_error(fmt::format("{}", fmt::join(hand->broken, " ")), where));
    if (!hand->yielded.empty())
        problems.push_back(
            {"held_line_yields", Severity::warning, where,
             fmt::format("The line is held all the same. {}", fmt::join(hand->yielded, " ")),
             "Look whether that is right, or let it go."});
    const ReachableLines one = context.keep({std::move(hand->lines)}, {hand->way_s});
    feeding.lay_kg_per_m = hand->lay_kg_per_m;
    feeding.ground = hand->ground;
    feeding.candidates = one.candidates;
    feeding.way_s = one.way_s;
    feeding.by_hand = ByHand::held;
    return feeding;
}

Error held_line_error(const std::string& rules, const std::string& where) {
    return {"held_line_broken", "The line that is held breaks a rule. " + rules, where,
            "Hold it elsewhere, or let it go; nothing was planned."};
}

void note_unused_holds(const Ranch& ranch, const PlanRequest& request, FeedSchedule& schedule) {
    for (const AnotherWay& asked : request.hand.another) {
        if (held_on(request.hand, asked.herd, asked.date) == nullptr) continue;
        schedule.problems.push_back(
            {"another_not_used", Severity::warning,
             fmt::format("herd {}, {}", ranch[asked.herd].name, format_day(asked.date)),
             "Another way was asked for, but the line is held and stays.", "Let it go first."});
    }
    for (const HeldFeeding& held : request.hand.held) {
        const bool in_plan =
            held.date >= request.from && held.date < request.from + std::chrono::days{request.days};
        if (!in_plan || on_record(ranch, held.herd, held.date)) continue;
        const bool used =
            std::any_of(schedule.feedings.begin(), schedule.feedings.end(),
                        [&](const ScheduledFeeding& feeding) {
                            return feeding.herd == held.herd && feeding.date == held.date;
                        });
        if (used) continue;
        schedule.problems.push_back(
            {"hold_not_used", Severity::warning,
             fmt::format("herd {}, {}", ranch[held.herd].name, format_day(held.date)),
             "A line is held, but nothing is due to be fed.",
             "Let it go, or hold the day with its bales."});
    }
}

}  // namespace haylane
