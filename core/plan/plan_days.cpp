// Stages in order, each a file of its own: feed_schedule, loads_before, place_feedings, haul_loads,
// then the ground afterwards and the words. Here values are handed on and totalled.
#include "core/plan/plan_days.h"

#include "core/base/require.h"
#include "core/haul/fuel.h"
#include "core/haul/load_work.h"
#include "core/plan/cautions.h"
#include "core/plan/daylight.h"
#include "core/plan/describe.h"
#include "core/plan/feed_schedule.h"
#include "core/plan/ground_loads.h"
#include "core/plan/ground_so_far.h"
#include "core/plan/haul_loads.h"
#include "core/plan/hay_lasts.h"
#include "core/plan/place_feedings.h"
#include "core/plan/spoken.h"

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

DepositMass mass_of(const DepositSplit& split) {
    return {split.residue_dm_kg, split.residue.n_kg + split.excreted.n_kg,
            split.residue.p2o5_kg + split.excreted.p2o5_kg,
            split.residue.k2o_kg + split.excreted.k2o_kg, split.n_lost_gas_kg};
}

// Cake and mineral: what is not kept by the animals, as mass only.
DepositMass other_mass(const Herd& herd, int days, const Settings& s) {
    const double head_days = static_cast<double>(herd.head) * days;
    DepositMass mass;
    mass.n_kg =
        herd.cake_kg * herd.cake_cp_ratio / kProteinPerN * head_days * (1.0 - s.retained_n_ratio);
    mass.p2o5_kg = (herd.cake_kg * herd.cake_p_ratio + herd.mineral_kg * herd.mineral_p_ratio) *
                   kP2o5PerP * head_days * (1.0 - s.retained_p_ratio);
    return mass;
}

std::string why_sentence(const GroundSoFar& so_far, const PlannedFeeding& planned,
                         const Settings& s) {
    std::string text = fmt::format(
        "This strip has had {} {} so far; the pasture's average is {} and its heaviest place {}.",
        spoken_density(so_far.here_per_m2, 1, s), spoken_density_unit(s),
        spoken_density(so_far.mean_per_m2, 1, s), spoken_density(so_far.heaviest_per_m2, 0, s));
    const int minutes = static_cast<int>(std::lround(planned.above_nearest_s / 60.0));
    text +=
        minutes > 0
            ? fmt::format(" It takes {} min more driving than the nearest line allowed.", minutes)
            : " No line allowed is nearer.";
    return text;
}

std::string order_sentence(const PlacedLines& placed) {
    if (placed.place == OrderPlace::beside_last) return "It lies beside the herd's last line. ";
    return placed.place == OrderPlace::new_block ? "It begins a new piece of ground. " : "";
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
        : checked_(checked),
          ranch_(checked.ranch),
          request_(request),
          context_(checked.ranch, request.blocked) {}

    Result<PlanResult> run() {
        request_.progress("feed", 0.0);
        auto schedule = feed_schedule(context_, request_);
        if (!schedule) return fail(schedule.error());
        schedule_ = std::move(*schedule);
        request_.progress("ground so far", 0.2);
        auto loads = loads_before(context_, request_.from, request_.threads);
        if (!loads) return fail(loads.error());
        result_.loads = std::move(*loads);
        request_.progress("lines", 0.3);
        auto placement = place_feedings(context_, schedule_, result_.loads, request_);
        if (request_.progress.stopped())
            return fail({"cancelled", "Stopped before the plan was done.", "", "Run it again."});
        if (!placement) return fail(placement.error());
        placement_ = std::move(*placement);
        request_.progress("hauls", 0.8);
        fill_feedings();
        fill_ground();
        fill_rest();
        request_.progress("done", 1.0);
        return std::move(result_);
    }

  private:
    void fill_feedings() {
        Plan& plan = result_.plan;
        std::map<int, Raster<double>> seen;  // bales through the window, by pasture
        RigsOut out;
        for (std::size_t f = 0; f < schedule_.feedings.size(); ++f) {
            const PastureId pasture = schedule_.feedings[f].pasture;
            const PastureLoad& load = result_.loads[pasture.index()];
            auto [place, fresh] = seen.try_emplace(pasture.value);
            if (fresh)
                place->second =
                    through_window(load.ground, load.before.bales, ranch_.settings.window_m);
            plan.feedings.push_back(planned_feeding(f, load.ground, place->second, out));
        }
    }

    // Every scheduled feeding has candidates, so it was given lines.
    const Candidate& lines_of(std::size_t f) const {
        const Candidate& lines = placement_.feedings[f].lines;
        require(!lines.lines.empty(), "a scheduled feeding without a line");
        return lines;
    }

    PlannedFeeding planned_feeding(std::size_t f, const PastureGround& ground,
                                   const Raster<double>& seen, RigsOut& out) {
        const ScheduledFeeding& feeding = schedule_.feedings[f];
        PlannedFeeding planned{.date = feeding.date,
                               .days_covered = feeding.days,
                               .firm = feeding.date < request_.from + std::chrono::days{kFirmDays},
                               .herd = feeding.herd,
                               .pasture = feeding.pasture,
                               .rig = feeding.rig,
                               .dm_eaten_kg = feeding.need.eaten_kg,
                               .dm_needed_kg = feeding.needed_kg,
                               .dm_offered_kg = feeding.mix.dm_kg,
                               .cp_ratio = feeding.lots.cp_ratio,
                               .tdn_ratio = feeding.lots.tdn_ratio};
        for (const LotPick& pick : feeding.lots.picks)
            planned.bales.push_back({pick.lot, ranch_[pick.lot].yard, pick.count});
        haul_loads(context_, feeding, lines_of(f), out, planned);
        planned.deposit = mass_of(split_of(ranch_, feeding));
        planned.deposit_other = other_mass(ranch_[feeding.herd], feeding.days, ranch_.settings);
        describe_start(feeding, planned);
        planned.above_nearest_s = placement_.feedings[f].above_nearest_s;
        planned.above_nearest_cost = above_cost(feeding, planned.above_nearest_s);
        const GroundSoFar so_far = ground_so_far(ground, seen, planned.lines);
        planned.ground_so_far_bales_per_m2 = so_far.here_per_m2;
        planned.heaviest_bales_per_m2 = so_far.heaviest_per_m2;
        planned.cautions = cautions_for(context_, feeding, planned);
        planned.why = order_sentence(placement_.feedings[f]) +
                      why_sentence(so_far, planned, ranch_.settings) + own_count_sentence(feeding);
        note_yield(f);
        note_order(f);
        return planned;
    }

    // What the rancher's own bales a day mean, beside what the tables would have said.
    std::string own_count_sentence(const ScheduledFeeding& feeding) const {
        if (!feeding.need.bales) return "";
        const double head_days = static_cast<double>(ranch_[feeding.herd].head) * feeding.days;
        const Settings& s = ranch_.settings;
        return fmt::format(" Your own count is {} of dry hay a head and day; the tables say {}.",
                           spoken_weight(feeding.needed_kg / head_days, s),
                           spoken_weight(feeding.need.table_offered_kg / head_days, s));
    }

    // The time above the nearest, priced with the fuel burnt per second on the way.
    std::optional<double> above_cost(const ScheduledFeeding& feeding, double above_s) {
        constexpr double kHaulLoadRatio = 0.4;
        const double fuel_l = above_s * fuel_rate_l_per_s(kHaulLoadRatio, ranch_[feeding.rig].pto_w,
                                                          ranch_.settings.throttle_cut_ratio);
        return daily_cost(above_s, fuel_l, ranch_.settings);
    }

    void describe_start(const ScheduledFeeding& feeding, PlannedFeeding& planned) {
        const TravelMap& travel = context_.travel(feeding.date, ranch_[feeding.rig]);
        const auto marks = landmarks_of(ranch_, feeding.pasture, travel.gates_of(feeding.pasture));
        planned.start = start_hint(marks, planned.lines.front().path.front());
        planned.toward = toward(marks, planned.lines.front().path);
    }

    void note_yield(std::size_t f) {
        const Yielded yielded = placement_.feedings[f].yielded;
        if (yielded == Yielded::nothing) return;
        const bool spacing = yielded == Yielded::spacing;
        const ScheduledFeeding& feeding = schedule_.feedings[f];
        result_.plan.problems.push_back(
            {spacing ? "spacing_yielded" : "rest_yielded", Severity::warning,
             name_feeding(ranch_, feeding.herd, feeding.date, feeding.pasture),
             spacing
                 ? "No room is left a full spacing from other lines: this one lies closer."
                 : "No rested ground is left: this line lies on ground fed earlier this season.",
             "List another pasture for this herd, or lower spacing_m or rest_days."});
    }

    void note_order(std::size_t f) {
        if (placement_.feedings[f].place != OrderPlace::no_block) return;
        const ScheduledFeeding& feeding = schedule_.feedings[f];
        result_.plan.problems.push_back(
            {"order_yielded", Severity::warning,
             name_feeding(ranch_, feeding.herd, feeding.date, feeding.pasture),
             "No block of ground has room for it beside other lines: it lies by itself.",
             "List another pasture for this herd, or lower spacing_m or site_days."});
    }

    void fill_ground() {
        std::vector<PlacedFeeding> placed;
        for (std::size_t f = 0; f < schedule_.feedings.size(); ++f) {
            const ScheduledFeeding& feeding = schedule_.feedings[f];
            placed.push_back({feeding.pasture,
                              {.shape = paths_of(lines_of(f)),
                               .split = split_of(ranch_, feeding),
                               .bales = static_cast<double>(feeding.mix.bales),
                               .rig = &ranch_[feeding.rig],
                               .wind_from_rad = wind_from_rad_on(ranch_, feeding.date)}});
        }
        add_to_loads(ranch_, placed, result_.loads);
        fill_evenness();
    }

    void fill_evenness() {
        std::vector<PastureId> used;
        for (const PlannedFeeding& planned : result_.plan.feedings) {
            if (std::find(used.begin(), used.end(), planned.pasture) == used.end())
                used.push_back(planned.pasture);
        }
        std::sort(used.begin(), used.end());
        for (const PastureId pasture : used) {
            const PastureLoad& load = result_.loads[pasture.index()];
            for (const char* measure : {"n", "p2o5", "k2o"}) {
                const double window = ranch_.settings.window_m;
                result_.plan.evenness.push_back(
                    {pasture, measure,
                     evenness_figures(load.ground, layer(load.before, measure_named(measure)),
                                      window),
                     evenness_figures(load.ground, layer(load.after, measure_named(measure)),
                                      window)});
            }
        }
    }

    void fill_rest() {
        Plan& plan = result_.plan;
        plan.ranch = ranch_.name;
        plan.from = request_.from;
        plan.days = request_.days;
        plan.seed = request_.seed;
        plan.optimality = placement_.optimality;
        fill_totals();
        add_long_day_cautions();
        const auto lasts = hay_lasts(ranch_, schedule_.lots_left,
                                     request_.from + std::chrono::days{request_.days});
        plan.hay_lasts = lasts.lasts;
        for (std::size_t l = 0; l < ranch_.lots.size(); ++l)
            plan.hay_left.push_back(
                {LotId::at(l), ranch_.lots[l].yard, schedule_.lots_left[l], lasts.runs_out[l]});
        plan.assumptions = list_assumptions(ranch_.settings, ranch_.settings_changed);
        plan.switched_off = checked_.switched_off;
        note_unproven_slope();
        plan.problems = all_problems();
    }

    Problems all_problems() const {
        Problems all = checked_.problems;
        const std::array<const Problems*, 3> sources{&schedule_.problems, &context_.problems(),
                                                     &result_.plan.problems};
        for (const Problems* more : sources) {
            std::copy_if(
                more->begin(), more->end(), std::back_inserter(all),
                [&](const Problem& p) { return !said_by_check(checked_.problems, p.code); });
        }
        return all;
    }

    void note_unproven_slope() {
        std::vector<std::string> names;
        for (const PlannedFeeding& f : result_.plan.feedings) {
            const auto ground = context_.dry_ground(f.pasture);
            const std::string& name = ranch_[f.pasture].name;
            if (ground && !(*ground)->slope_proven &&
                std::find(names.begin(), names.end(), name) == names.end())
                names.push_back(name);
        }
        if (names.empty()) return;
        result_.plan.problems.push_back(
            {"slope_not_proven", Severity::warning, fmt::format("{}", fmt::join(names, ", ")),
             ranch_.terrain
                 ? "The terrain is coarser than 5 m or does not cover all of the ground: "
                   "short steep banks do not show, so the slope is not proven."
                 : "There is no terrain: the slope is not proven.",
             "Add finer terrain, and look at the ground before you drive it."});
    }

    void fill_totals() {
        PlanTotals& totals = result_.plan.totals;
        totals.cost = 0.0;
        for (const PlannedFeeding& feeding : result_.plan.feedings) {
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
        for (const PlannedFeeding& feeding : result_.plan.feedings) {
            for (const PlannedLoad& load : feeding.loads)
                work_s[{feeding.date, feeding.rig}] += load.time_s;
        }
        for (PlannedFeeding& feeding : result_.plan.feedings) {
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
    PlanContext context_;
    FeedSchedule schedule_;
    Placement placement_;
    PlanResult result_;
};

}  // namespace

Result<PlanResult> plan_days(const CheckedRanch& checked, const PlanRequest& request) {
    if (auto error = nothing_to_plan(checked.ranch)) return fail(std::move(*error));
    return Planner(checked, request).run();
}

}  // namespace haylane
