// Stages in order, each a file of its own: feed_schedule, loads_before, place_feedings, haul_loads,
// then the ground afterwards and the words. Here values are handed on and totalled.
#include "core/plan/plan_days.h"

#include "core/base/require.h"
#include "core/deposit/around_rings.h"
#include "core/lines/ring_places.h"
#include "core/plan/daylight.h"
#include "core/plan/describe.h"
#include "core/plan/ground_loads.h"
#include "core/plan/hay_lasts.h"
#include "core/plan/laying_wind.h"
#include "core/plan/ring_feeding.h"
#include "core/plan/storm_ground.h"
#include "core/plan/target_loads.h"
#include "core/ranch/measured_figures.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr int kFirmDays = 3;

std::optional<Error> nothing_to_plan(const Ranch& ranch) {
    const auto missing = [](const char* what, const char* role) {
        return Error{"nothing_to_plan", fmt::format("There is no {} to plan with.", what), "",
                     fmt::format("Add {} to the ranch folder and make the book again.", role)};
    };
    if (ranch.herds.empty()) return missing("herd", "herds.csv");
    if (ranch.rigs.empty()) return missing("rig", "rigs.csv");
    if (ranch.yards.empty()) return missing("bale yard", "yards");
    const bool hay = std::any_of(ranch.lots.begin(), ranch.lots.end(),
                                 [](const HayLot& lot) { return lot.bales > 0; });
    if (!hay) return missing("hay on hand", "hay.csv with bales");
    return std::nullopt;
}

// Of codes that checking a ranch and building its ways both raise, checking's word stands.
bool said_by_check(const Problems& checked, const std::string& code) {
    static constexpr std::array<std::pair<const char*, const char*>, 3> kTwins{
        {{"gate_not_on_fence", "gate_far_from_fence"},
         {"yard_off_trail", "yard_unreachable"},
         {"trail_crosses_fence_without_gate", "trail_crosses_fence_without_gate"}}};
    return std::any_of(kTwins.begin(), kTwins.end(), [&](const auto& twin) {
        return code == twin.first &&
               std::any_of(checked.begin(), checked.end(),
                           [&](const Problem& p) { return p.code == twin.second; });
    });
}

class Planner {
  public:
    Planner(const CheckedRanch& checked, const PlanRequest& request)
        : checked_(checked), ranch_(checked.ranch), request_(request) {
        kept_.context = std::make_unique<PlanContext>(checked.ranch, request.blocked, request.hand,
                                                      request.threads);
    }

    Result<KeptPlan> run() {
        if (auto error = place()) return fail(std::move(*error));
        request_.progress("hauls", 0.8);
        if (auto filled = fill_feedings(); !filled) return fail(filled.error());
        fill_ground();
        fill_rest();
        request_.progress("done", 1.0);
        return std::move(kept_);
    }

  private:
    // What is fed where, and its lines. Feedings for which no line keeps the limits are scheduled
    // again, thinner or elsewhere; each round shuts ways for good, so that they end.
    std::optional<Error> place() {
        std::vector<OverLimit> over_limit;
        while (true) {
            request_.progress("feed", 0.0);
            auto schedule = feed_schedule(context(), request_, over_limit);
            if (!schedule) return schedule.error();
            kept_.schedule = std::move(*schedule);
            if (auto error = look_at_ground()) return error;
            if (request_.progress.stopped()) return plan_cancelled();
            request_.progress("lines", 0.3);
            auto placement = place_feedings(context(), kept_.schedule, result().loads, request_);
            if (request_.progress.stopped()) return plan_cancelled();
            if (!placement) return placement.error();
            kept_.placement = std::move(*placement);
            if (kept_.placement.without_line.empty()) return std::nullopt;
            for (const std::size_t without : kept_.placement.without_line) {
                const ScheduledFeeding& f = scheduled()[without];
                over_limit.push_back({f.herd, f.date, f.pasture, f.ground,
                                      f.by_hand == ByHand::held ||
                                          is_fed_in_rings(ranch_, f.herd) ||
                                          f.lay_kg_per_m <= ranch_[f.rig].lay_kg_per_m_min});
            }
        }
    }

    std::optional<Error> look_at_ground() {
        if (!result().loads.empty()) return std::nullopt;
        request_.progress("ground so far", 0.2);
        auto loads = loads_before(context(), request_.from, request_.threads);
        if (!loads) return loads.error();
        result().loads = std::move(*loads);
        return std::nullopt;
    }

    PlanContext& context() { return *kept_.context; }
    PlanResult& result() { return kept_.result; }
    [[nodiscard]] const std::vector<ScheduledFeeding>& scheduled() const {
        return kept_.schedule.feedings;
    }

    Result<void> fill_feedings() {
        DaysWork work;
        for (std::size_t f = 0; f < scheduled().size(); ++f) {
            const ScheduledFeeding& feeding = scheduled()[f];
            if (request_.progress.stopped()) return fail(plan_cancelled());
            auto planned = planned_feeding(context(), feeding, placed(f),
                                           kept_.ground_seen(feeding.pasture), work);
            if (!planned) return fail(planned.error());
            planned->firm = feeding.date < request_.from + std::chrono::days{kFirmDays};
            add_storm_caution(feeding, *planned);
            result().plan.feedings.push_back(std::move(*planned));
            note_turns(feeding);
            note_yield(f);
            note_order(f);
            note_ground(f);
        }
        return {};
    }

    // A placement is only taken when every feeding has lines.
    const PlacedLines& placed(std::size_t f) const {
        const PlacedLines& own = kept_.placement.feedings[f];
        require(!own.lines.lines.empty(), "a scheduled feeding without a line");
        return own;
    }

    void note_turns(const ScheduledFeeding& feeding) {
        if (feeding.forward_turns) return;
        result().plan.problems.push_back(
            {"turns_yielded", Severity::warning,
             name_feeding(ranch_, feeding.herd, feeding.date, feeding.pasture),
             "No way to lay this feeding leaves room to turn forward from line to line: the rig "
             "has to back up.",
             "List another pasture for this herd, or feed with a rig that turns tighter."});
    }

    void note_yield(std::size_t f) {
        const Yielded yielded = placed(f).yielded;
        if (yielded == Yielded::nothing) return;
        const bool spacing = yielded == Yielded::spacing;
        const ScheduledFeeding& feeding = scheduled()[f];
        result().plan.problems.push_back(
            {spacing ? "spacing_yielded" : "rest_yielded", Severity::warning,
             name_feeding(ranch_, feeding.herd, feeding.date, feeding.pasture),
             yield_text(feeding.by_hand == ByHand::held, spacing),
             feeding.by_hand == ByHand::held
                 ? "Look whether that is right, or let it go."
                 : "List another pasture for this herd, or lower spacing_m or rest_days."});
    }

    static const char* yield_text(bool held, bool spacing) {
        if (held)
            return spacing ? "The line that is held lies closer to another than a spacing."
                           : "The line that is held lies on ground fed or to be fed this season.";
        return spacing
                   ? "No room is left a full spacing from other lines: this one lies closer."
                   : "No rested ground is left: this line lies on ground fed earlier this season.";
    }

    void note_order(std::size_t f) {
        if (placed(f).place != OrderPlace::no_block) return;
        const ScheduledFeeding& feeding = scheduled()[f];
        result().plan.problems.push_back(
            {"order_yielded", Severity::warning,
             name_feeding(ranch_, feeding.herd, feeding.date, feeding.pasture),
             "No block of ground has room for it beside other lines: it lies by itself.",
             "List another pasture for this herd, or lower spacing_m or site_days."});
    }

    void add_storm_caution(const ScheduledFeeding& feeding, PlannedFeeding& planned) {
        const auto days = days_on_storm_ground(context(), feeding, result().plan.feedings);
        if (!days || *days <= ranch_.settings.storm_days) return;
        planned.cautions.push_back(
            {"storm_ground",
             fmt::format("{} days on this ground this winter: rest it as soon as weather lets you.",
                         *days),
             fmt::format("{} days on this ground", *days)});
    }

    // Where the ground is less than weather and calving ask for.
    void note_ground(std::size_t f) {
        const ScheduledFeeding& feeding = scheduled()[f];
        if (feeding.by_hand == ByHand::held) return;
        const GroundNeed asked = ground_need(ranch_, feeding.herd, feeding.date);
        const std::string where = name_feeding(ranch_, feeding.herd, feeding.date, feeding.pasture);
        if (asked.lee_of_rad && !feeding.ground.lee_of_rad)
            result().plan.problems.push_back(
                {"wind_yielded", Severity::warning, where,
                 fmt::format("A cold wind blows from the {}, and no line fits on ground out of "
                             "it: this one lies in the open.",
                             compass_word(*asked.lee_of_rad)),
                 "Draw the shelter there is in the shelter layer, or list a pasture with shelter "
                 "for this herd."});
        if (asked.fresh_since && !feeding.ground.fresh_since)
            result().plan.problems.push_back(
                {"calving_yielded", Severity::warning, where,
                 "No line fits on ground that was not fed on this winter: cows calve on old feed "
                 "ground.",
                 "List a clean pasture for this herd to calve in."});
    }

    [[nodiscard]] Laying laid_out(const ScheduledFeeding& feeding, const Candidate& lines) const {
        const Rig& rig = ranch_[feeding.rig];
        const MultiPolyline paths = paths_of(lines);
        const double fines = fines_ratio(ranch_, rig, feeding.date, paths);
        const DepositSplit split = split_of(ranch_, feeding, fines);
        const double left = split.residue_dm_kg;
        return {.shape = paths,
                .split = split,
                .bales = static_cast<double>(feeding.mix.bales),
                .rig = &rig,
                .wind_from_rad = wind_from_rad_on(ranch_, feeding.date),
                .fines_share_ratio = left > 0.0 ? fines * feeding.mix.dm_kg / left : 0.0};
    }

    // Bales in rings.
    [[nodiscard]] Laying set_out(const ScheduledFeeding& feeding, const Candidate& rows) const {
        return {.shape = around_rings(ring_places(rows)),
                .split = split_of(ranch_, feeding),
                .bales = static_cast<double>(feeding.mix.bales)};
    }

    void fill_ground() {
        std::vector<PlacedFeeding> all;
        for (std::size_t f = 0; f < scheduled().size(); ++f) {
            const ScheduledFeeding& feeding = scheduled()[f];
            const Candidate& lines = placed(f).lines;
            all.push_back({feeding.pasture,
                           lines.in_rings ? set_out(feeding, lines) : laid_out(feeding, lines)});
        }
        add_to_loads(ranch_, all, result().loads);
        fill_evenness();
        result().plan.targets = target_loads(ranch_, result().loads, request_.from);
    }

    void fill_evenness() {
        std::vector<PastureId> used;
        for (const PlannedFeeding& planned : result().plan.feedings) {
            if (std::find(used.begin(), used.end(), planned.pasture) == used.end())
                used.push_back(planned.pasture);
        }
        std::sort(used.begin(), used.end());
        for (const PastureId pasture : used) {
            const PastureLoad& load = result().loads[pasture.index()];
            for (const char* measure : {"n", "p2o5", "k2o"}) {
                const double window = ranch_.settings.window_m;
                result().plan.evenness.push_back(
                    {pasture, measure,
                     evenness_figures(load.ground, layer(load.before, measure_named(measure)),
                                      window),
                     evenness_figures(load.ground, layer(load.after(), measure_named(measure)),
                                      window)});
            }
        }
    }

    void fill_rest() {
        Plan& plan = result().plan;
        plan.ranch = ranch_.name;
        plan.from = request_.from;
        plan.days = request_.days;
        plan.seed = request_.seed;
        plan.optimality = kept_.placement.optimality;
        fill_totals();
        add_long_day_cautions();
        const auto lasts = hay_lasts(ranch_, kept_.schedule.lots_left,
                                     request_.from + std::chrono::days{request_.days});
        plan.hay_lasts = lasts.lasts;
        for (std::size_t l = 0; l < ranch_.lots.size(); ++l)
            plan.hay_left.push_back({LotId::at(l), ranch_.lots[l].yard, kept_.schedule.lots_left[l],
                                     lasts.runs_out[l]});
        plan.assumptions = list_assumptions(ranch_.settings, ranch_.settings_changed);
        const auto measured = list_measured(ranch_);
        plan.assumptions.insert(plan.assumptions.end(), measured.begin(), measured.end());
        plan.switched_off = checked_.switched_off;
        note_unproven_slope();
        plan.problems = all_problems();
    }

    Problems all_problems() const {
        Problems all = checked_.problems;
        const std::array<const Problems*, 4> sources{
            &kept_.schedule.problems, &kept_.context->problems(), &kept_.placement.problems,
            &kept_.result.plan.problems};
        for (const Problems* more : sources) {
            std::copy_if(
                more->begin(), more->end(), std::back_inserter(all),
                [&](const Problem& p) { return !said_by_check(checked_.problems, p.code); });
        }
        return all;
    }

    void note_unproven_slope() {
        std::vector<std::string> names;
        for (const PlannedFeeding& f : result().plan.feedings) {
            const auto ground = context().dry_ground(f.pasture);
            const std::string& name = ranch_[f.pasture].name;
            if (ground && !(*ground)->slope_proven &&
                std::find(names.begin(), names.end(), name) == names.end())
                names.push_back(name);
        }
        if (names.empty()) return;
        result().plan.problems.push_back(
            {"slope_not_proven", Severity::warning, fmt::format("{}", fmt::join(names, ", ")),
             ranch_.terrain
                 ? "The terrain is coarser than 5 m or does not cover all of the ground: "
                   "short steep banks do not show, so the slope is not proven."
                 : "There is no terrain: the slope is not proven.",
             "Add finer terrain, and look at the ground before you drive it."});
    }

    void fill_totals() {
        PlanTotals& totals = result().plan.totals;
        totals.cost = 0.0;
        for (const PlannedFeeding& feeding : result().plan.feedings) {
            for (const PlannedLoad& load : feeding.loads) {
                totals.bales += load.bale_count;
                totals.distance_m += load.distance_m;
                totals.time_s += load.time_s;
                totals.fuel_l += load.fuel_l;
                if (!load.cost) totals.cost.reset();
                if (totals.cost) *totals.cost += *load.cost;
            }
        }
    }

    void add_long_day_cautions() {
        std::map<std::pair<sys_days, RigId>, double> work_s;
        for (const PlannedFeeding& feeding : result().plan.feedings) {
            for (const PlannedLoad& load : feeding.loads)
                work_s[{feeding.date, feeding.rig}] += load.time_s;
        }
        for (PlannedFeeding& feeding : result().plan.feedings) {
            const double work = work_s[{feeding.date, feeding.rig}];
            if (work > daylight_s(ranch_.latitude_rad, feeding.date))
                feeding.cautions.push_back(
                    {"long_day",
                     fmt::format("{} works {:.0f} h this day, longer than daylight.",
                                 ranch_[feeding.rig].name, work / 3600.0),
                     "long day"});
        }
    }

    const CheckedRanch& checked_;
    const Ranch& ranch_;
    const PlanRequest& request_;
    KeptPlan kept_;
};

}  // namespace

GroundSeen KeptPlan::ground_seen(PastureId pasture) {
    const PastureLoad& load = result.loads[pasture.index()];
    auto [place, fresh] = seen.try_emplace(pasture);
    if (fresh)
        place->second =
            through_window(load.ground, load.before.bales, context->ranch().settings.window_m);
    return {&load.ground, &place->second};
}

Result<KeptPlan> keep_plan(const CheckedRanch& checked, const PlanRequest& request) {
    if (auto error = nothing_to_plan(checked.ranch)) return fail(std::move(*error));
    return Planner(checked, request).run();
}

Result<PlanResult> plan_days(const CheckedRanch& checked, const PlanRequest& request) {
    auto kept = keep_plan(checked, request);
    if (!kept) return fail(kept.error());
    return std::move(kept->result);
}

}  // namespace haylane
