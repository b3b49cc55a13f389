// Boxes first, true distances only where boxes come within a spacing. Clearance from resting lines
// is worked once a set of candidates (and date, where rest ends); pairs of feedings on demand.
#include "core/plan/line_rules.h"

#include "core/base/parallel.h"

#include <algorithm>

namespace haylane {

namespace {

const std::vector<Candidate>& candidates_of(const ChoiceFeeding& feeding) {
    static const std::vector<Candidate> kNone;
    return feeding.candidates != nullptr ? *feeding.candidates : kNone;
}

}  // namespace

LineRules::LineRules(const LineChoiceInput& input) : input_(&input) {
    box_candidates();
    // Feedings that share candidates, ground and (where rest ends) date share their clearances.
    std::map<std::tuple<std::size_t, int, sys_days>, std::size_t> known;
    for (std::size_t f = 0; f < input.feedings.size(); ++f) {
        const ChoiceFeeding& feeding = input.feedings[f];
        const bool ends = input.rest_days > 0 && feeding.rest_ends;
        const sys_days date = ends ? feeding.date : sys_days{};
        const auto [at, fresh] =
            known.try_emplace({set_of_[f], feeding.ground, date}, resting_.size());
        if (fresh) resting_.push_back(clearances_from_resting(f));
        resting_of_.push_back(at->second);
    }
}

void LineRules::box_candidates() {
    std::vector<const std::vector<Candidate>*> sets;
    for (const ChoiceFeeding& feeding : input_->feedings) {
        const std::vector<Candidate>* own = &candidates_of(feeding);
        const auto at = std::find(sets.begin(), sets.end(), own);
        set_of_.push_back(static_cast<std::size_t>(at - sets.begin()));
        if (at != sets.end()) continue;
        sets.push_back(own);
        std::vector<Boxed> boxes;
        for (const Candidate& candidate : *own) {
            Boxed boxed;
            for (const CandidateLine& line : candidate.lines) {
                boxed.lines.push_back(box_of(line.path));
                for (const Point p : line.path) boxed.all.add(p);
            }
            boxes.push_back(std::move(boxed));
        }
        boxes_.push_back(std::move(boxes));
    }
}

bool LineRules::rests_on(const RestingLine& line, std::size_t feeding) const {
    const ChoiceFeeding& own = input_->feedings[feeding];
    if (line.ground != own.ground) return false;
    if (input_->rest_days <= 0 || !own.rest_ends) return true;
    return (own.date - line.laid).count() < input_->rest_days;
}

std::vector<Clearance> LineRules::clearances_from_resting(std::size_t feeding) const {
    const std::vector<Candidate>& candidates = candidates_of(input_->feedings[feeding]);
    const std::vector<Boxed>& boxes = boxes_[set_of_[feeding]];
    std::vector<std::pair<const Polyline*, Box>> resting;
    for (const RestingLine& line : input_->resting) {
        if (!rests_on(line, feeding) || line.path.empty()) continue;
        resting.emplace_back(&line.path, box_of(line.path).grown_by(input_->spacing_m));
    }
    std::vector<Clearance> result(candidates.size(), Clearance::clear);
    parallel_for(candidates.size(), input_->threads, [&](std::size_t c) {
        for (const auto& [path, box] : resting) {
            if (!box.meets(boxes[c].all)) continue;
            for (std::size_t l = 0; l < candidates[c].lines.size(); ++l) {
                if (!box.meets(boxes[c].lines[l])) continue;
                result[c] = std::min(
                    result[c], clearance(candidates[c].lines[l].path, *path, input_->spacing_m));
            }
        }
    });
    return result;
}

bool LineRules::keep_apart(std::size_t f, std::size_t g) const {
    const ChoiceFeeding& a = input_->feedings[f];
    const ChoiceFeeding& b = input_->feedings[g];
    if (f == g || a.ground != b.ground) return false;
    return haylane::keep_apart(*input_, a, b.date) || haylane::keep_apart(*input_, b, a.date);
}

Clearance LineRules::between(std::size_t f, std::size_t c, std::size_t g, std::size_t d,
                             Clearance bad_enough) const {
    const Boxed& a = boxes_[set_of_[f]][c];
    const Boxed& b = boxes_[set_of_[g]][d];
    const double spacing = input_->spacing_m;
    if (!a.all.grown_by(spacing).meets(b.all)) return Clearance::clear;
    const Candidate& of_f = candidates_of(input_->feedings[f])[c];
    const Candidate& of_g = candidates_of(input_->feedings[g])[d];
    Clearance worst = Clearance::clear;
    for (std::size_t l = 0; l < of_f.lines.size(); ++l) {
        const Box near = a.lines[l].grown_by(spacing);
        if (!near.meets(b.all)) continue;
        for (std::size_t m = 0; m < of_g.lines.size(); ++m) {
            if (!near.meets(b.lines[m])) continue;
            worst = std::min(
                worst, clearance(of_f.lines[l].path, of_g.lines[m].path, spacing, bad_enough));
            if (worst <= bad_enough) return worst;
        }
    }
    return worst;
}

Clearance LineRules::worst_of(std::size_t f, std::size_t c, std::span<const int> chosen,
                              Clearance bad_enough) const {
    Clearance worst = from_resting(f)[c];
    for (std::size_t g = 0; g < chosen.size() && worst > bad_enough; ++g) {
        if (chosen[g] < 0 || !keep_apart(f, g)) continue;
        worst = std::min(worst, between(f, c, g, static_cast<std::size_t>(chosen[g]), bad_enough));
    }
    return worst;
}

Clearance LineRules::of(std::size_t f, std::size_t c, const std::vector<int>& chosen,
                        std::size_t end) const {
    return worst_of(f, c, std::span(chosen).first(end), Clearance::touching);
}

bool LineRules::is_clear(std::size_t f, std::size_t c, const std::vector<int>& chosen) const {
    return worst_of(f, c, chosen, Clearance::near) == Clearance::clear;
}

std::vector<Clearance> LineRules::all_of(std::size_t f, const std::vector<int>& chosen) {
    std::vector<Clearance> worst = from_resting(f);
    for (std::size_t g = 0; g < chosen.size(); ++g) {
        if (chosen[g] < 0 || !keep_apart(f, g)) continue;
        const auto [at, fresh] = pairs_.try_emplace({set_of_[f], set_of_[g], chosen[g]});
        if (fresh) {
            at->second.resize(worst.size());
            for (std::size_t c = 0; c < worst.size(); ++c) {
                at->second[c] = between(f, c, g, static_cast<std::size_t>(chosen[g]));
            }
        }
        for (std::size_t c = 0; c < worst.size(); ++c) worst[c] = std::min(worst[c], at->second[c]);
    }
    return worst;
}

}  // namespace haylane
