// One choice of lines a pasture: what lay there before the span is the ground it starts from.
// Feedings of about the same length share their candidates.
#include "core/season/backcast.h"

#include "core/deposit/excreta_places.h"
#include "core/ground/feedable_ground.h"
#include "core/lines/candidate_lines.h"
#include "core/plan/choose_lines.h"
#include "core/plan/ground_limits.h"
#include "core/plan/ground_loads.h"
#include "core/season/ground_account.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <utility>

namespace haylane {

namespace {

constexpr double kLengthStep_m = 20.0;  // lengths are rounded to it: assumption

struct Movable {
    std::size_t record = 0;  // place in the ranch's feedings
    double length_m = 0.0;   // rounded
};

class PastureBackcast {
  public:
    PastureBackcast(const AccountContext& context, const BackcastOptions& options,
                    const PastureGround& ground, const FeedableGround& feedable)
        : context_(context),
          options_(options),
          ground_(ground),
          feedable_(feedable),
          places_(excreta_places(context.ranch, ground)),
          measure_(measure_named(context.ranch.settings.objective_measure)) {}

    void run(Backcast& out) {
        find_movable(out);
        if (movable_.empty()) return;
        LineChoiceInput input = input_of_settings();
        input.grounds.push_back({.ground = &ground_, .load_kg = load_before()});
        std::vector<Movable> placed;
        for (const Movable& one : movable_) {
            const std::vector<Candidate>* candidates = candidates_for(one);
            if (candidates->empty()) continue;
            input.feedings.push_back(choice_of(one, *candidates));
            placed.push_back(one);
        }
        out.kept += static_cast<int>(movable_.size() - placed.size());
        if (placed.empty()) return;
        const LineChoice choice = choose_lines(input);
        for (std::size_t f = 0; f < placed.size(); ++f)
            lay(placed[f], input.feedings[f], choice.chosen[f], out);
    }

  private:
    [[nodiscard]] const Ranch& ranch() const { return context_.ranch; }
    [[nodiscard]] const FeedingRecord& record(const Movable& one) const {
        return ranch().feedings[one.record];
    }

    void find_movable(Backcast& out) {
        for (const FeedingRecord* feeding : context_.feedings[ground_.pasture.index()]) {
            if (share_in(*feeding, context_.request.span) <= 0.0) continue;
            const auto* lines = std::get_if<MultiPolyline>(&feeding->shape);
            double length = 0.0;
            for (const Polyline& line : lines != nullptr ? *lines : MultiPolyline{})
                length += length_m(line);
            if (length < kLengthStep_m || !feeding->rig) {
                ++out.kept;
                continue;
            }
            movable_.push_back({static_cast<std::size_t>(feeding - ranch().feedings.data()),
                                kLengthStep_m * std::round(length / kLengthStep_m)});
        }
    }

    [[nodiscard]] LineChoiceInput input_of_settings() const {
        const Settings& s = ranch().settings;
        LineChoiceInput input;
        input.spacing_m = s.spacing_m;
        input.rest_days = static_cast<int>(s.rest_days);
        input.window_m = s.window_m;
        input.sigma_line_m = s.sigma_line_m;
        input.cost_weight_ratio = 0.0;
        input.seed = options_.seed;
        input.threads = options_.threads;
        input.progress = context_.request.progress;
        return input;
    }

    [[nodiscard]] Raster<double> load_before() const {
        const Feedings& all = context_.feedings[ground_.pasture.index()];
        const Span before{"", sys_days{}, context_.request.span.from - std::chrono::days{1}};
        const Feedings older = feedings_in(all, before);
        if (older.empty()) return Raster<double>(ground_.mask.grid);
        const Span counted{"", older.front()->from, before.to};
        return layer(season_map(ranch(), ground_, older, counted).deposit, measure_);
    }

    const std::vector<Candidate>* candidates_for(const Movable& one) {
        const Rig& rig = ranch()[*record(one).rig];
        auto& kept = candidates_[{record(one).rig->value, one.length_m}];
        if (!kept) {
            LineRequest request;
            request.loads = {{1, one.length_m}};
            request.line_radius_m = line_radius_m(rig, ranch().settings).value_or(0.0);
            request.spacing_m = ranch().settings.spacing_m;
            request.heading_step_rad = ranch().settings.heading_step_rad;
            request.max_candidates = options_.max_candidates;
            request.threads = options_.threads;
            kept = std::make_unique<std::vector<Candidate>>(candidate_lines(feedable_, request));
        }
        return kept.get();
    }

    [[nodiscard]] ChoiceFeeding choice_of(const Movable& one,
                                          const std::vector<Candidate>& candidates) const {
        const FeedingRecord& feeding = record(one);
        const DepositSplit split = excretion(excretion_input(feeding), ranch().settings);
        ChoiceFeeding choice;
        choice.date = feeding.from;
        choice.candidates = &candidates;
        choice.money.assign(candidates.size(), 0.0);
        choice.rig = &ranch()[*feeding.rig];
        choice.wind_from_rad = wind_from_rad_on(ranch(), feeding.from);
        const double excreted = of_measure(split.excreted, measure_);
        choice.mass = {of_measure(split.residue, measure_), excreted * places_.line_ratio,
                       places_.elsewhere};
        for (double& value : choice.mass.elsewhere_kg.values) value *= excreted;
        return choice;
    }

    void lay(const Movable& one, const ChoiceFeeding& choice, int chosen, Backcast& out) const {
        if (chosen < 0) {
            ++out.kept;
            return;
        }
        out.feedings[one.record].shape =
            paths_of((*choice.candidates)[static_cast<std::size_t>(chosen)]);
        ++out.moved;
    }

    const AccountContext& context_;
    const BackcastOptions& options_;
    const PastureGround& ground_;
    const FeedableGround& feedable_;
    ExcretaPlaces places_;
    Measure measure_;
    std::vector<Movable> movable_;
    std::map<std::pair<std::int32_t, double>, std::unique_ptr<std::vector<Candidate>>> candidates_;
};

}  // namespace

Result<Backcast> backcast(const AccountContext& context, const BackcastOptions& options) {
    Backcast out{context.ranch.feedings, 0, 0};
    const auto& asked = context.request.pastures;
    for (std::size_t p = 0; p < context.feedings.size(); ++p) {
        const PastureId pasture = PastureId::at(p);
        if (!asked.empty() && std::find(asked.begin(), asked.end(), pasture) == asked.end())
            continue;
        if (feedings_in(context.feedings[p], context.request.span).empty()) continue;
        context.request.progress(
            "backcast", static_cast<double>(p) / static_cast<double>(context.feedings.size()));
        if (context.request.progress.stopped()) return fail(account_stopped());
        const auto feedable =
            feedable_ground(context.ranch, pasture, context.terrain,
                            {.fence_strip_m = context.ranch.settings.fence_clearance_m});
        if (!feedable) return fail(feedable.error());
        const PastureGround ground = pasture_ground(context.ranch, pasture, *feedable);
        if (ground.cells > 0) PastureBackcast(context, options, ground, *feedable).run(out);
    }
    return out;
}

}  // namespace haylane
