// Greedy in the order of the feedings (by date), each given those before it; then rounds in which
// every feeding is taken off and chosen anew given all others; when that changes nothing, pairs of
// feedings are, up to twice; at last a few feedings at a time. Budget in moves, so that the plan
// does not hang on the clock. What a candidate adds to J is 2<residual, W> + s + c: first order by
// one walk through the adjoint fields, s and c known beforehand. Residual and fields are kept up to
// date by thin bands.
// Best-first order was not taken: the order by date gives the same plan when later days are cut
// off. Feedings without a choice are laid before all others, which then keep clear of them.
#include "core/plan/choose_lines.h"

#include "core/base/parallel.h"
#include "core/plan/bound.h"
#include "core/plan/choice_model.h"
#include "core/plan/line_rules.h"
#include "core/plan/load_room.h"
#include "core/plan/plan_objective.h"
#include "core/plan/random_plans.h"
#include "core/plan/reinsert.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace haylane {

namespace {

constexpr double kLeastGain = 1e-12;
constexpr std::size_t kPairBeam = 4;  // candidates tried for the first of a pair
constexpr int kPairReach = 6;         // later feedings on the same ground that are paired
constexpr int kPairRounds = 2;
constexpr int kReinsertRounds = 24;  // a ground
constexpr double kTieStep = 1e-9;    // J is compared in these steps, then by index

struct Pick {
    int candidate = -1;
    double change = 0.0;  // of J
    Yielded yielded = Yielded::nothing;
};

class Search {
  public:
    Search(const ChoiceModel& model, LineRules& rules, const LoadLimits& limits)
        : model_(&model),
          rules_(&rules),
          limits_(&limits),
          room_(limits),
          chosen_(model.feedings.size(), -1),
          on_ground_(model.feedings.size()) {
        fields_.resize(model.grounds.size());
        parallel_for(fields_.size(), model.threads, [&](std::size_t g) {
            fields_[g] = fields_at(model.grounds[g], model.grounds[g].fixed_kg);
        });
    }

    [[nodiscard]] const std::vector<int>& chosen() const { return chosen_; }

    // The best candidates for which least must yield, given all others that are chosen.
    [[nodiscard]] std::vector<Pick> ranked(std::size_t f, std::size_t count) {
        const std::vector<Clearance> clearances = rules_->all_of(f, chosen_);
        for (const Clearance kept : {Clearance::clear, Clearance::near, Clearance::touching}) {
            std::vector<Pick> picks = ranked_among(f, clearances, kept, count);
            if (!picks.empty()) return picks;
        }
        return {};
    }

    [[nodiscard]] Pick best(std::size_t f) {
        const std::vector<Pick> picks = ranked(f, 1);
        return picks.empty() ? Pick{} : picks.front();
    }

    [[nodiscard]] double change_of(std::size_t f, int candidate) const {
        return haylane::change_of(*model_, fields_[model_->feedings[f].ground], f,
                                  static_cast<std::size_t>(candidate));
    }

    void lay(std::size_t f, int candidate) {
        chosen_[f] = candidate;
        if (candidate < 0) return;
        room_.add(f, static_cast<std::size_t>(candidate), 1.0);
        const std::size_t g = model_->feedings[f].ground;
        on_ground_[f] =
            fields_at(model_->grounds[g], laid_kg(*model_, f, static_cast<std::size_t>(candidate)));
        add_fields(f, 1.0);
    }

    void take_off(std::size_t f) {
        if (chosen_[f] < 0) return;
        room_.add(f, static_cast<std::size_t>(chosen_[f]), -1.0);
        add_fields(f, -1.0);
        chosen_[f] = -1;
    }

    // Puts back what take_off took, without working it out again.
    void put_back(std::size_t f, int candidate) {
        chosen_[f] = candidate;
        if (candidate < 0) return;
        room_.add(f, static_cast<std::size_t>(candidate), 1.0);
        add_fields(f, 1.0);
    }

  private:
    // Those of one clearance that keep the limits.
    std::vector<Pick> ranked_among(std::size_t f, const std::vector<Clearance>& clearances,
                                   Clearance kept, std::size_t count) const {
        std::vector<Pick> picks;
        for (std::size_t c = 0; c < clearances.size(); ++c) {
            if (clearances[c] == kept && limits_->fits_alone(f, c))
                picks.push_back({static_cast<int>(c), 0.0, yielded_for(kept)});
        }
        parallel_for(picks.size(), model_->threads,
                     [&](std::size_t n) { picks[n].change = change_of(f, picks[n].candidate); });
        const auto better = [](const Pick& a, const Pick& b) {
            const double step_a = std::round(a.change / kTieStep);
            const double step_b = std::round(b.change / kTieStep);
            return step_a != step_b ? step_a < step_b : a.candidate < b.candidate;
        };
        const std::size_t first =
            limits_->limited(f) ? picks.size() : std::min(count, picks.size());
        std::partial_sort(picks.begin(), picks.begin() + static_cast<std::ptrdiff_t>(first),
                          picks.end(), better);
        picks.resize(first);
        keep_within_limits(f, count, picks);
        return picks;
    }

    // The first `count` that fit beside what is laid: each costs a deposit, so few are asked.
    void keep_within_limits(std::size_t f, std::size_t count, std::vector<Pick>& picks) const {
        std::size_t kept = 0;
        for (std::size_t n = 0; n < picks.size() && kept < count; ++n) {
            if (room_.holds(f, static_cast<std::size_t>(picks[n].candidate)))
                picks[kept++] = picks[n];
        }
        picks.resize(kept);
    }

    void add_fields(std::size_t f, double factor) {
        ChoiceFields& fields = fields_[model_->feedings[f].ground];
        add_band(on_ground_[f].residue, factor, fields.residue);
        add_band(on_ground_[f].line, factor, fields.line);
    }

    const ChoiceModel* model_;
    LineRules* rules_;
    const LoadLimits* limits_;
    LoadRoom room_;
    std::vector<int> chosen_;
    std::vector<FieldBands> on_ground_;  // by feeding: what it adds to the fields
    std::vector<ChoiceFields> fields_;   // by ground, at the present residual
};

// Chooses one feeding anew; true when that changed the plan for the better, or yields less.
bool improve(Search& search, const LineRules& rules, std::size_t f) {
    const int old = search.chosen()[f];
    if (old < 0) {  // perhaps the others have made room
        search.lay(f, search.best(f).candidate);
        return search.chosen()[f] >= 0;
    }
    search.take_off(f);
    const auto c = static_cast<std::size_t>(old);
    const Yielded yields = yielded_for(rules.of(f, c, search.chosen(), search.chosen().size()));
    const Pick pick = search.best(f);
    const bool better =
        pick.yielded < yields || pick.change < search.change_of(f, old) - kLeastGain;
    if (pick.candidate == old || !better) {
        search.put_back(f, old);
        return false;
    }
    search.lay(f, pick.candidate);
    return true;
}

// Takes two feedings off and tries the best few candidates of f, each with the best of g after it;
// true when the plan is better for it. Only where no rule yields, before or after.
bool improve_pair(Search& search, std::size_t f, std::size_t g) {
    const int old_f = search.chosen()[f];
    const int old_g = search.chosen()[g];
    if (old_f < 0 || old_g < 0) return false;
    search.take_off(g);
    const double change_g = search.change_of(g, old_g);
    search.take_off(f);
    const double least = search.change_of(f, old_f) + change_g - kLeastGain;
    Pick best_f{old_f, 0.0, Yielded::nothing};
    Pick best_g{old_g, 0.0, Yielded::nothing};
    double best = least;
    for (const Pick& pick_f : search.ranked(f, kPairBeam)) {
        search.lay(f, pick_f.candidate);
        const Pick pick_g = search.best(g);
        search.take_off(f);
        const bool keeps = pick_g.candidate >= 0 && pick_f.yielded == Yielded::nothing &&
                           pick_g.yielded == Yielded::nothing;
        if (!keeps || pick_f.change + pick_g.change >= best) continue;
        best = pick_f.change + pick_g.change;
        best_f = pick_f;
        best_g = pick_g;
    }
    search.lay(f, best_f.candidate);
    search.lay(g, best_g.candidate);
    return best < least;
}

bool improve_pairs(const LineChoiceInput& input, Search& search) {
    bool changed = false;
    for (std::size_t f = 0; f < input.feedings.size(); ++f) {
        int partners = 0;
        for (std::size_t g = f + 1; g < input.feedings.size() && partners < kPairReach; ++g) {
            if (input.feedings[f].ground != input.feedings[g].ground) continue;
            if (!input.improves()) return changed;
            ++partners;
            changed = improve_pair(search, f, g) || changed;
        }
    }
    return changed;
}

// A few feedings of a ground at once.
void improve_few(const LineChoiceInput& input, const ChoiceModel& model, Search& search) {
    std::vector<std::vector<std::size_t>> groups(model.grounds.size());
    for (std::size_t f = 0; f < model.feedings.size(); ++f)
        if (model.feedings[f].candidates() > 1) groups[model.feedings[f].ground].push_back(f);
    for (const std::vector<std::size_t>& group : groups) {
        if (!input.improves()) return;
        Reinsertion(search, group, {.rounds = kReinsertRounds, .seed = input.seed}).run();
    }
}

bool improve_each(const LineChoiceInput& input, Search& search, const LineRules& rules) {
    bool changed = false;
    for (std::size_t f = 0; f < input.feedings.size() && input.improves(); ++f) {
        changed = improve(search, rules, f) || changed;
    }
    return changed;
}

std::vector<int> search_plan(const LineChoiceInput& input, const ChoiceModel& model,
                             LineRules& rules, const LoadLimits& limits) {
    Search search(model, rules, limits);
    const std::size_t count = model.feedings.size();
    const auto has_choice = [&](std::size_t f) { return model.feedings[f].candidates() > 1; };
    for (std::size_t f = 0; f < count; ++f)
        if (!has_choice(f)) search.lay(f, search.best(f).candidate);
    for (std::size_t f = 0; f < count; ++f) {
        if (has_choice(f)) search.lay(f, search.best(f).candidate);
        input.progress("lines", 0.5 * static_cast<double>(f + 1) / static_cast<double>(count));
    }
    int pair_rounds = kPairRounds;
    for (int round = 0; round < input.swap_rounds; ++round) {
        bool changed = improve_each(input, search, rules);
        if (!changed && pair_rounds-- > 0) changed = improve_pairs(input, search);
        if (!changed) break;
    }
    if (input.swap_rounds > 0) improve_few(input, model, search);
    return search.chosen();
}

// Candidates that limits and the rules against resting lines leave a feeding, at what the plan let
// yield.
Allowed allowed_candidates(const ChoiceModel& model, const LineRules& rules,
                           const LoadLimits& limits, const std::vector<int>& chosen) {
    Allowed allowed(model.feedings.size());
    for (std::size_t f = 0; f < allowed.size(); ++f) {
        const std::vector<Clearance>& clearances = rules.from_resting(f);
        if (clearances.empty()) continue;
        Clearance least = *std::max_element(clearances.begin(), clearances.end());
        if (chosen[f] >= 0) {
            least = std::min(least, clearances[static_cast<std::size_t>(chosen[f])]);
        }
        for (std::size_t c = 0; c < clearances.size(); ++c) {
            if (clearances[c] >= least && limits.fits_alone(f, c)) allowed[f].push_back(c);
        }
    }
    return allowed;
}

// How clear each candidate stays of resting lines and of the feedings before it.
std::vector<Clearance> clear_of_earlier(LineRules& rules, std::size_t f, std::vector<int> chosen) {
    std::fill(chosen.begin() + static_cast<std::ptrdiff_t>(f), chosen.end(), -1);
    return rules.all_of(f, chosen);
}

template <class Holds>
int nearest_allowed(const std::vector<double>& money, const std::vector<Clearance>& clearances,
                    int chosen, const Holds& holds) {
    if (money.size() != clearances.size()) return chosen;
    int nearest = chosen;
    for (std::size_t c = 0; c < money.size(); ++c) {
        if (clearances[c] < clearances[static_cast<std::size_t>(chosen)]) continue;
        if (money[c] < money[static_cast<std::size_t>(nearest)] && holds(c))
            nearest = static_cast<int>(c);
    }
    return nearest;
}

// What gave way for each feeding, and what was nearer.
void judge(const LineChoiceInput& input, LineRules& rules, const LoadLimits& limits,
           LineChoice& choice) {
    LoadRoom room(limits);
    for (std::size_t f = 0; f < choice.chosen.size(); ++f) {
        const int chosen = choice.chosen[f];
        choice.yielded.push_back(Yielded::nothing);
        choice.nearest.push_back(chosen);
        if (chosen < 0) continue;
        const std::vector<Clearance> clearances = clear_of_earlier(rules, f, choice.chosen);
        choice.yielded[f] = yielded_for(clearances[static_cast<std::size_t>(chosen)]);
        choice.nearest[f] = nearest_allowed(input.feedings[f].money, clearances, chosen,
                                            [&](std::size_t c) { return room.holds(f, c); });
        room.add(f, static_cast<std::size_t>(chosen), 1.0);
    }
}

Optimality grade(const LineChoiceInput& input, const ChoiceModel& model, const LineRules& rules,
                 const LoadLimits& limits, const std::vector<int>& chosen) {
    Optimality result;
    const Allowed allowed = allowed_candidates(model, rules, limits, chosen);
    result.objective = plan_objective(model, chosen);
    result.lower_bound = lower_bound(model, allowed);
    result.j_ref = mean_random_objective(model, rules, limits, input.seed).value_or(0.0);
    std::size_t candidates = 0;
    for (const FeedingModel& feeding : model.feedings) candidates += feeding.candidates();
    result.candidates =
        static_cast<int>(candidates / std::max<std::size_t>(1, model.feedings.size()));
    result.cv = plan_cv(model, chosen);
    result.cv_bound = cv_lower_bound(model, allowed);
    return with_gaps(result);
}

}  // namespace

Optimality with_gaps(Optimality grade) {
    grade.gap = grade.objective > 0.0 ? 1.0 - grade.lower_bound / grade.objective : 0.0;
    const double gain = grade.j_ref - grade.lower_bound;
    grade.gap_of_gain.reset();
    if (gain > 0.0) grade.gap_of_gain = (grade.objective - grade.lower_bound) / gain;
    return grade;
}

LineChoice choose_lines(const LineChoiceInput& input, const ChoiceModel& model, LineRules& rules,
                        const LoadLimits& limits) {
    input.progress("candidates", 1.0);
    LineChoice choice;
    choice.chosen = search_plan(input, model, rules, limits);
    choice.cut_short = input.enough.stop_requested();
    judge(input, rules, limits, choice);
    choice.optimality = grade(input, model, rules, limits, choice.chosen);
    return choice;
}

LineChoice choose_lines(const LineChoiceInput& input) {
    const ChoiceModel model = choice_model(input);
    LineRules rules(input);
    return choose_lines(input, model, rules, LoadLimits(input, model));
}

}  // namespace haylane
