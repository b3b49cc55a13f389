// Blocks are opened greedily, the chains in turn. A block's worth is what its whole run of feedings
// adds to J (3 terms: 2<residual, W>, |W|^2 and haul) per kg laid, so that blocks which hold fewer
// days compare; blocks that hold less than half of what another holds are left out, since they
// would soon be left again.
#include "core/plan/neighbour_order.h"

#include "core/base/parallel.h"
#include "core/plan/line_rules.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace haylane {

namespace {

constexpr double kTieStep = 1e-9;  // relative; nearer worths go to the block listed first

// A line that keeps others away.
struct Kept {
    Polyline path;
    Box box;
    std::size_t ground = 0;
    sys_days laid;
    bool held = false;
};

// A block as far as it can be used from one feeding of a chain on.
struct Run {
    std::vector<OrderedFeeding> days;
    double mass_kg = 0.0;
    double change = 0.0;  // of J
    [[nodiscard]] double worth() const {
        return mass_kg > 0.0 ? -change / mass_kg : -std::numeric_limits<double>::infinity();
    }
};

class Order {
  public:
    Order(const OrderInput& input, const ChoiceModel& model, const LoadLimits& limits)
        : input_(&input),
          model_(&model),
          limits_(&limits),
          room_(limits),
          laid_(input.choice->feedings.size()) {
        for (const RestingLine& line : input.choice->resting)
            keep(line.path, static_cast<std::size_t>(line.ground), line.laid);
        resting_ = kept_.size();
        for (const GroundModel& ground : model.grounds)
            fields_.push_back(fields_at(ground, ground.fixed_kg));
    }

    std::vector<OrderedFeeding> run() {
        for (const std::size_t f : input_->held) lay_freely(f);
        for (std::size_t k = resting_; k < kept_.size(); ++k) kept_[k].held = true;
        for (const OrderChain& chain : input_->chains) lay_chain(chain);
        for (const std::size_t f : input_->last) lay_freely(f);
        return std::move(laid_);
    }

  private:
    void lay_chain(const OrderChain& chain) {
        for (std::size_t at = 0; at < chain.feedings.size();) {
            // Only the block under way is gone on with; one that is left rests.
            Run best = at == 0 ? best_run(chain, at, chain.open) : Run{};
            if (!best.days.empty() && chain.open_is_new)
                best.days.front().place = OrderPlace::new_block;
            Run fresh = best_run(chain, at, chain.blocks);
            if (best.days.empty() || opens_early(best, fresh)) {
                best = std::move(fresh);
                if (!best.days.empty()) best.days.front().place = OrderPlace::new_block;
            }
            if (best.days.empty()) {
                lay_freely(chain.feedings[at++]);
                continue;
            }
            for (OrderedFeeding& day : best.days) take(chain.feedings[at++], std::move(day));
        }
    }

    [[nodiscard]] bool opens_early(const Run& going_on, const Run& fresh) const {
        if (fresh.days.empty()) return false;
        const double saved = (fresh.worth() - going_on.worth()) * going_on.mass_kg;
        return saved > model_->cost_per_money * input_->move_worth_s;
    }

    [[nodiscard]] Run best_run(const OrderChain& chain, std::size_t from,
                               const std::vector<Site>& sites) const {
        std::vector<Run> runs(sites.size());
        parallel_for(sites.size(), model_->threads,
                     [&](std::size_t s) { runs[s] = run_on(chain, from, sites[s]); });
        std::size_t longest = 0;
        for (const Run& run : runs) longest = std::max(longest, run.days.size());
        Run* best = nullptr;
        for (Run& run : runs) {
            if (run.days.empty() || 2 * run.days.size() < longest) continue;
            if (best == nullptr || run.worth() > best->worth() + kTieStep * std::abs(best->worth()))
                best = &run;
        }
        return best != nullptr ? std::move(*best) : Run{};
    }

    [[nodiscard]] Run run_on(const OrderChain& chain, std::size_t from, const Site& site) const {
        std::vector<SiteDay> days;
        for (std::size_t i = from; i < chain.feedings.size(); ++i)
            days.push_back(input_->days[chain.feedings[i]]);
        const auto taken = [&](std::size_t day, const Candidate& lines) {
            return clearance_of(chain.feedings[from + day], lines, true) != Clearance::clear;
        };
        std::vector<Candidate> filled = fill_site(site, days, taken);
        Run run;
        LoadRoom room = room_;
        for (std::size_t i = 0; i < filled.size(); ++i) {
            const std::size_t f = chain.feedings[from + i];
            if (clearance_of(f, filled[i]) != Clearance::clear) break;
            if (!fits(f, filled[i], room)) break;
            const double way = input_->way_s(f, filled[i]);
            if (!std::isfinite(way)) break;
            const double lost = lost_s(f, filled[i], way);
            run.days.push_back(
                {std::move(filled[i]), way, lost, Yielded::nothing, OrderPlace::beside_last});
        }
        weigh(chain, from, run);
        return run;
    }

    // Whether the lines keep the limits; takes their part of the room if so.
    [[nodiscard]] bool fits(std::size_t f, const Candidate& lines, LoadRoom& room) const {
        if (!limits_->limited(f)) return true;
        const UnitLaid laid = limits_->unit_laid(f, lines);
        if (!room.holds(f, laid)) return false;
        room.add(f, laid, 1.0);
        return true;
    }

    // Fills mass and change.
    void weigh(const OrderChain& chain, std::size_t from, Run& run) const {
        if (run.days.empty()) return;
        const std::size_t g = model_->feedings[chain.feedings[from]].ground;
        const GroundModel& ground = model_->grounds[g];
        LaidCells cells;
        for (std::size_t i = 0; i < run.days.size(); ++i) {
            const std::size_t f = chain.feedings[from + i];
            const LaidCells own = laid_cells(*model_, *input_->choice, f, run.days[i].lines);
            cells.residue.insert(cells.residue.end(), own.residue.begin(), own.residue.end());
            cells.line.insert(cells.line.end(), own.line.begin(), own.line.end());
            run.mass_kg += model_->feedings[f].residue_kg + model_->feedings[f].line_kg;
            run.change += model_->cost_per_money * (run.days[i].way_s + run.days[i].lost_s);
        }
        const Band laid = laid_kg(ground, cells);
        run.change += ground.scale * dot(laid, laid, ground.ground->target) +
                      2.0 * first_order(fields_[g], cells);
    }

    [[nodiscard]] double lost_s(std::size_t f, const Candidate& lines, double way_s) const {
        return input_->lost_s ? input_->lost_s(f, lines, way_s) : 0.0;
    }

    [[nodiscard]] Clearance clearance_of(std::size_t f, const Candidate& candidate,
                                         bool only_held = false) const {
        const LineChoiceInput& choice = *input_->choice;
        const std::size_t g = model_->feedings[f].ground;
        Clearance worst = Clearance::clear;
        for (const CandidateLine& line : candidate.lines) {
            const Box box = box_of(line.path).grown_by(choice.spacing_m);
            for (const Kept& kept : kept_) {
                if (kept.ground != g || (only_held && !kept.held)) continue;
                if (!keep_apart(choice, choice.feedings[f], kept.laid)) continue;
                if (!box.meets(kept.box)) continue;
                worst = std::min(worst, clearance(line.path, kept.path, choice.spacing_m));
            }
        }
        return worst;
    }

    // The candidate for which least must yield, then the best; none when none keeps the limits.
    void lay_freely(std::size_t f) {
        const ChoiceFeeding& feeding = input_->choice->feedings[f];
        if (feeding.candidates == nullptr) return;
        const std::vector<Candidate>& all = *feeding.candidates;
        std::vector<std::pair<Clearance, double>> ranks(all.size());
        const ChoiceFields& fields = fields_[model_->feedings[f].ground];
        parallel_for(all.size(), model_->threads, [&](std::size_t c) {
            ranks[c] = {clearance_of(f, all[c]), change_of(*model_, fields, f, c)};
        });
        std::vector<std::size_t> open;
        for (std::size_t c = 0; c < all.size(); ++c)
            if (limits_->fits_alone(f, c)) open.push_back(c);
        while (!open.empty()) {
            const auto best = best_of(open, ranks);
            const std::size_t c = *best;
            if (!room_.holds(f, c)) {
                open.erase(best);
                continue;
            }
            const double way = input_->way_s(f, all[c]);
            return take(f, {all[c], way, lost_s(f, all[c], way), yielded_for(ranks[c].first),
                            OrderPlace::no_block});
        }
    }

    static std::vector<std::size_t>::const_iterator best_of(
        const std::vector<std::size_t>& open,
        const std::vector<std::pair<Clearance, double>>& ranks) {
        auto best = open.begin();
        for (auto c = open.begin(); c != open.end(); ++c) {
            const bool clearer = ranks[*c].first > ranks[*best].first;
            const bool as_clear = ranks[*c].first == ranks[*best].first;
            if (clearer || (as_clear && ranks[*c].second < ranks[*best].second - kTieStep))
                best = c;
        }
        return best;
    }

    void take(std::size_t f, OrderedFeeding day) {
        if (limits_->limited(f)) room_.add(f, limits_->unit_laid(f, day.lines), 1.0);
        const std::size_t g = model_->feedings[f].ground;
        const GroundModel& ground = model_->grounds[g];
        const FieldBands more =
            fields_at(ground, laid_kg(ground, laid_cells(*model_, *input_->choice, f, day.lines)));
        add_band(more.residue, 1.0, fields_[g].residue);
        add_band(more.line, 1.0, fields_[g].line);
        for (const CandidateLine& one : day.lines.lines)
            keep(one.path, g, input_->choice->feedings[f].date);
        laid_[f] = std::move(day);
    }

    void keep(const Polyline& path, std::size_t ground, sys_days laid) {
        if (!path.empty()) kept_.push_back({path, box_of(path), ground, laid});
    }

    const OrderInput* input_;
    const ChoiceModel* model_;
    const LoadLimits* limits_;
    LoadRoom room_;
    std::vector<OrderedFeeding> laid_;
    std::vector<ChoiceFields> fields_;  // by ground, with what is laid so far
    std::vector<Kept> kept_;
    std::size_t resting_ = 0;  // how many of them were there before the plan
};

}  // namespace

std::vector<OrderedFeeding> neighbour_order(const OrderInput& input, const ChoiceModel& model,
                                            const LoadLimits& limits) {
    return Order(input, model, limits).run();
}

}  // namespace haylane
