// J = |r|^2 + sum (2<r, W> + c) x + |sum x W|^2 with one candidate a feeding: a minimum by feeding
// where cross terms, at least 0, are left out, and the relaxed choice (relaxed_bound). Grounds do
// not touch one another: their parts add up. CV: with q <= mean square distance from a level t and
// the mean m in [lo, hi], CV^2 = (q - (m - t)^2) / m^2, which is least at lo or hi (in 1/m it is a
// parabola, concave or with its vertex below 0).
#include "core/plan/bound.h"

#include "core/base/parallel.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {

namespace {

using PerCandidate = std::vector<std::vector<double>>;  // by feeding, by candidate
using Rasters = std::vector<Raster<double>>;            // by ground

// <residual, W> of every candidate of every feeding; shapes are walked once each.
PerCandidate products(const ChoiceModel& model, const Rasters& residual_kg) {
    std::vector<ChoiceFields> fields(model.grounds.size());
    parallel_for(fields.size(), model.threads,
                 [&](std::size_t g) { fields[g] = fields_at(model.grounds[g], residual_kg[g]); });
    struct Product {
        double residue = 0.0;
        double line = 0.0;
    };
    std::vector<Product> by_shape(model.shapes.size());
    parallel_for(by_shape.size(), model.threads, [&](std::size_t s) {
        const ChoiceFields& at = fields[model.shape_ground[s]];
        for (const CellAmount& c : model.shapes[s].residue) {
            by_shape[s].residue += c.amount * at.residue.values[c.cell];
        }
        for (const CellAmount& c : model.shapes[s].line) {
            by_shape[s].line += c.amount * at.line.values[c.cell];
        }
    });
    PerCandidate result;
    for (const FeedingModel& feeding : model.feedings) {
        std::vector<double> own;
        own.reserve(feeding.candidates());
        for (const std::size_t s : feeding.shape) {
            own.push_back(feeding.residue_kg * by_shape[s].residue +
                          feeding.line_kg * by_shape[s].line);
        }
        result.push_back(std::move(own));
    }
    return result;
}

// Sum over feedings of the least value among their allowed candidates.
template <class Value>
double sum_of_least(const Allowed& allowed, const Value& value) {
    double sum = 0.0;
    for (std::size_t f = 0; f < allowed.size(); ++f) {
        double least = std::numeric_limits<double>::infinity();
        for (const std::size_t c : allowed[f]) least = std::min(least, value(f, c));
        if (!allowed[f].empty()) sum += least;
    }
    return sum;
}

double square_of_all(const ChoiceModel& model, const Rasters& u_kg) {
    double sum = 0.0;
    for (std::size_t g = 0; g < u_kg.size(); ++g) sum += square_of(model.grounds[g], u_kg[g]);
    return sum;
}

// The bound's part of one ground: what lies on one says nothing of another.
class GroundBound {
  public:
    GroundBound(const ChoiceModel& model, const Allowed& allowed, std::size_t ground)
        : model_(&model), allowed_(&allowed) {
        for (std::size_t f = 0; f < model.feedings.size(); ++f)
            if (model.feedings[f].ground == ground && !allowed[f].empty()) feedings_.push_back(f);
    }

    // `linear`: 2<r, W> + c of every candidate.
    [[nodiscard]] double least(const PerCandidate& linear, const RelaxedOptions& options) const {
        const double apart = least_apart(linear);
        if (feedings_.size() < 2) return apart;  // nothing overlaps
        std::vector<RelaxedFeeding> relaxed;
        for (const std::size_t f : feedings_) relaxed.push_back({f, &(*allowed_)[f], linear[f]});
        return std::max(apart, relaxed_bound(*model_, relaxed, options));
    }

  private:
    // A minimum by feeding: cross terms are left out.
    [[nodiscard]] double least_apart(const PerCandidate& linear) const {
        double sum = 0.0;
        for (const std::size_t f : feedings_) {
            double least = std::numeric_limits<double>::infinity();
            for (const std::size_t c : (*allowed_)[f])
                least = std::min(least, linear[f][c] + own_energy(*model_, f, c));
            sum += least;
        }
        return sum;
    }

    const ChoiceModel* model_;
    const Allowed* allowed_;
    std::vector<std::size_t> feedings_;
};

Rasters fixed_of(const ChoiceModel& model) {
    Rasters fixed;
    for (const GroundModel& ground : model.grounds) fixed.push_back(ground.fixed_kg);
    return fixed;
}

double sum_on_target(const GroundModel& ground, const Raster<double>& values) {
    double sum = 0.0;
    for (std::size_t c = 0; c < values.values.size(); ++c) {
        if (ground.ground->target.values[c] != 0) sum += values.values[c];
    }
    return sum;
}

// What any plan can have on the target ground in all.
struct MassRange {
    double area_m2 = 0.0;
    double least_kg = 0.0;
    double most_kg = 0.0;
};

MassRange mass_range(const ChoiceModel& model, const Allowed& allowed) {
    MassRange range;
    Rasters ones;
    for (const GroundModel& ground : model.grounds) {
        // 1 / scale, so that the inner product with it is plain kg on target cells.
        ones.emplace_back(ground.ground->mask.grid, 1.0 / ground.scale);
        range.area_m2 += static_cast<double>(ground.ground->target_cells) *
                         ground.ground->mask.grid.cell_area_m2();
        range.least_kg +=
            sum_on_target(ground, ground.fixed_kg) + sum_on_target(ground, ground.level_kg);
    }
    range.most_kg = range.least_kg;
    const PerCandidate mass = products(model, ones);
    range.least_kg +=
        sum_of_least(allowed, [&](std::size_t f, std::size_t c) { return mass[f][c]; });
    range.most_kg -=
        sum_of_least(allowed, [&](std::size_t f, std::size_t c) { return -mass[f][c]; });
    return range;
}

// At most |r + sum W|^2 + sum cost for every choice, grounds apart.
double least_square(const ChoiceModel& model, const Allowed& allowed, const Rasters& residual_kg,
                    const PerCandidate& cost, const RelaxedOptions& options) {
    PerCandidate linear = products(model, residual_kg);
    for (std::size_t f = 0; f < linear.size(); ++f) {
        for (std::size_t c = 0; c < linear[f].size(); ++c)
            linear[f][c] = 2.0 * linear[f][c] + cost[f][c];
    }
    std::vector<double> own(model.grounds.size());
    parallel_for(own.size(), model.threads, [&](std::size_t g) {
        own[g] = GroundBound(model, allowed, g).least(linear, options);
    });
    double bound = square_of_all(model, residual_kg);
    for (const double part : own) bound += part;
    // Where lines overlap much, cross terms left out can make this negative; squares never are.
    return std::max(
        bound, sum_of_least(allowed, [&](std::size_t f, std::size_t c) { return cost[f][c]; }));
}

}  // namespace

double lower_bound(const ChoiceModel& model, const Allowed& allowed,
                   const RelaxedOptions& options) {
    PerCandidate cost;
    for (const FeedingModel& feeding : model.feedings) cost.push_back(feeding.cost);
    return least_square(model, allowed, fixed_of(model), cost, options);
}

std::optional<double> cv_lower_bound(const ChoiceModel& model, const Allowed& allowed,
                                     const RelaxedOptions& options) {
    const MassRange range = mass_range(model, allowed);
    if (range.area_m2 <= 0.0 || range.least_kg <= 0.0) return std::nullopt;
    // One level for all ground: any does; the middle of the range loses least.
    const double level = 0.5 * (range.least_kg + range.most_kg) / range.area_m2;
    Rasters residual = fixed_of(model);
    for (std::size_t g = 0; g < residual.size(); ++g) {
        const GroundModel& ground = model.grounds[g];
        const double even_kg = level * ground.ground->mask.grid.cell_area_m2();
        for (std::size_t c = 0; c < residual[g].values.size(); ++c)
            residual[g].values[c] += ground.level_kg.values[c] - even_kg;
    }
    PerCandidate no_cost;
    for (const FeedingModel& feeding : model.feedings)
        no_cost.emplace_back(feeding.candidates(), 0.0);
    const double mean_square =
        least_square(model, allowed, residual, no_cost, options) * model.normalizer / range.area_m2;
    const auto cv_square = [&](double mass_kg) {
        const double mean = mass_kg / range.area_m2;
        return (mean_square - (mean - level) * (mean - level)) / (mean * mean);
    };
    const double least = std::min(cv_square(range.least_kg), cv_square(range.most_kg));
    return std::sqrt(std::max(0.0, least));
}

}  // namespace haylane
