// The lay rate gives each head a fifth more than the least space, as far as the rig can; where no
// line of that length fits, the shortest lines are tried. Bales in rings stand in rows, which are
// looked for as lines are; their hay a metre follows from how far apart rings stand.
#include "core/plan/lay_feeding.h"

#include "core/plan/hand_lines.h"
#include "core/plan/load_out.h"
#include "core/plan/ring_feeding.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kSpaceMargin = 1.2;   // line laid a fifth longer than the least space a head
constexpr double kLeastRings_m = 5.0;  // between rings, whatever the spacing: room to drive past

double wanted_lay_kg_per_m(const Ranch& ranch, const ScheduledFeeding& f) {
    const Rig& rig = ranch[f.rig];
    double kg = 0.0;
    for (const ScheduledLoad& load : f.loads) kg += load.hay_kg;
    const double wanted_m = ranch[f.herd].head * ranch.settings.head_space_m * kSpaceMargin;
    return std::clamp(kg / wanted_m, rig.lay_kg_per_m_min, rig.lay_kg_per_m_max);
}

// Hay a metre along a row of rings: as far apart as the dose has them in a square, then as close
// as they may stand.
std::vector<double> ring_rates_kg_per_m(const Ranch& ranch, const ScheduledFeeding& f) {
    const Settings& s = ranch.settings;
    double bale_kg = std::numeric_limits<double>::infinity();
    for (const ScheduledLoad& load : f.loads) bale_kg = std::min(bale_kg, load.hay_kg / load.bales);
    const double dose = ranch[f.pasture].dose_bales_per_m2.value_or(s.dose_bales_per_m2);
    const double least_m = std::max(s.spacing_m, kLeastRings_m);
    return {bale_kg / std::max(least_m, 1.0 / std::sqrt(dose)), bale_kg / least_m};
}

std::vector<double> rates_kg_per_m(const Ranch& ranch, const ScheduledFeeding& f, bool thinnest) {
    if (is_fed_in_rings(ranch, f.herd)) return ring_rates_kg_per_m(ranch, f);
    const Rig& rig = ranch[f.rig];
    if (thinnest) return {rig.lay_kg_per_m_min};
    return {wanted_lay_kg_per_m(ranch, f), rig.lay_kg_per_m_max};
}

Error no_rings_error(const Ranch& ranch, const ScheduledFeeding& f) {
    return {"no_line",
            "No row of bales in rings fits on ground that may be fed on: fence strip, setbacks, "
            "slope, gates and the spacing of rings leave no room.",
            name_feeding(ranch, f.herd, f.date, f.pasture),
            "List another pasture for this herd, lower spacing_m, or check the slope limit and "
            "setbacks."};
}

Error no_line_error(const Ranch& ranch, const ScheduledFeeding& f) {
    if (is_fed_in_rings(ranch, f.herd)) return no_rings_error(ranch, f);
    const bool thaw = thaws_on(ranch, f.date);
    return {"no_line",
            fmt::format("No line long enough fits on ground that may be fed on with rig {}{}: "
                        "fence strip, setbacks, slope "
                        "and turning radius leave no room.",
                        ranch[f.rig].name, thaw ? " while soft ground is closed" : ""),
            name_feeding(ranch, f.herd, f.date, f.pasture),
            "List another pasture for this herd, raise the rig's greatest lay rate, or check the "
            "slope limit and setbacks."};
}

Error no_other_error(const Ranch& ranch, const ScheduledFeeding& f) {
    return {"no_other_line", "No line is left that is clearly different from those already seen.",
            name_feeding(ranch, f.herd, f.date, f.pasture),
            "Plan without asking for another, or open more ground to this herd."};
}

// Those clearly different from every one already seen.
ReachableLines only_other(PlanContext& context, const ReachableLines& all,
                          const ScheduledFeeding& f,
                          const std::vector<const MultiPolyline*>& seen) {
    std::vector<Candidate> some;
    std::vector<double> way_s;
    for (std::size_t c = 0; c < all.candidates->size(); ++c) {
        const Candidate& candidate = (*all.candidates)[c];
        const MultiPolyline paths = paths_of(candidate);
        const bool other = std::all_of(seen.begin(), seen.end(), [&](const auto* lines) {
            return pasture_under(context.ranch(), *lines) != f.pasture ||
                   are_clearly_different(paths, *lines, context.ranch().settings.spacing_m);
        });
        if (!other) continue;
        some.push_back(candidate);
        way_s.push_back((*all.way_s)[c]);
    }
    return context.keep(std::move(some), std::move(way_s));
}

}  // namespace

// A herd is fed where its rig must back up before it stays hungry.
Result<ScheduledFeeding> lay_feeding(PlanContext& context, ScheduledFeeding f, bool thinnest) {
    const Ranch& ranch = context.ranch();
    const Rig& rig = ranch[f.rig];
    const auto seen = unlike_on(context.hand(), f.herd, f.date);
    f.by_hand = seen.empty() ? ByHand::no : ByHand::another;
    bool any = false;
    const std::vector<double> rates = rates_kg_per_m(ranch, f, thinnest);
    for (const bool forward : {true, false}) {
        f.forward_turns = forward;
        for (const double lay : rates) {
            const auto found = context.candidates(lines_asked(ranch, f, lay));
            if (!found) return fail(found.error());
            ReachableLines near =
                context.reachable(**found, f.date, rig, f.pasture, yards_of(f.loads));
            any = any || !near.candidates->empty();
            if (!seen.empty()) near = only_other(context, near, f, seen);
            if (near.candidates->empty()) continue;
            f.lay_kg_per_m = lay;
            f.candidates = near.candidates;
            f.way_s = near.way_s;
            return f;
        }
    }
    return fail(any ? no_other_error(ranch, f) : no_line_error(ranch, f));
}

}  // namespace haylane
