// For weights x in {0, 1} with sum 1 a feeding, and W >= 0, any theta in [0, 1] gives
//   J >= |r|^2 + min_x sum (2<r, W> + (1 - theta) s + c) x + theta |sum x W|^2:
// with x^2 = x and cross terms at least 0, |sum x W|^2 >= (1 - theta) sum s x + theta |sum x W|^2.
// theta = 0 is a minimum per feeding, or per group of feedings that keep apart (spaced_bound). For
// theta > 0 the relaxation to 0 <= x <= 1 is convex; Frank & Wolfe (1956) minimise it, and value
// minus duality gap bounds it at every iterate. CV: with q <= mean square distance from a level t
// and the mean m in [lo, hi], CV^2 = (q - (m - t)^2) / m^2, which is least at lo or hi (in 1/m it
// is a parabola, concave or with its vertex below 0).
#include "core/plan/bound.h"

#include "core/base/parallel.h"
#include "core/plan/spaced_bound.h"

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

PerCandidate energies(const ChoiceModel& model) {
    PerCandidate result;
    for (std::size_t f = 0; f < model.feedings.size(); ++f) {
        std::vector<double> own;
        for (std::size_t c = 0; c < model.feedings[f].candidates(); ++c) {
            own.push_back(own_energy(model, f, c));
        }
        result.push_back(std::move(own));
    }
    return result;
}

// The cheapest allowed candidate of each feeding and the sum of their values.
struct Vertex {
    std::vector<int> candidate;
    double value = 0.0;
};

template <class Value>
Vertex cheapest(const Allowed& allowed, const Value& value) {
    Vertex vertex;
    for (std::size_t f = 0; f < allowed.size(); ++f) {
        int best = -1;
        double least = std::numeric_limits<double>::infinity();
        for (const std::size_t c : allowed[f]) {
            const double own = value(f, c);
            if (own < least) {
                least = own;
                best = static_cast<int>(c);
            }
        }
        vertex.candidate.push_back(best);
        if (best >= 0) vertex.value += least;
    }
    return vertex;
}

Rasters laid_by(const ChoiceModel& model, const std::vector<int>& candidate) {
    Rasters laid;
    for (const GroundModel& ground : model.grounds) {
        laid.emplace_back(ground.ground->mask.grid);
    }
    for (std::size_t f = 0; f < candidate.size(); ++f) {
        if (candidate[f] < 0) continue;
        add_band(laid_kg(model, f, static_cast<std::size_t>(candidate[f])), 1.0,
                 laid[model.feedings[f].ground]);
    }
    return laid;
}

double square_of_all(const ChoiceModel& model, const Rasters& u_kg) {
    double sum = 0.0;
    for (std::size_t g = 0; g < u_kg.size(); ++g) sum += square_of(model.grounds[g], u_kg[g]);
    return sum;
}

// u += factor x (v - u).
void move_toward(const Rasters& v, double factor, Rasters& u) {
    for (std::size_t g = 0; g < u.size(); ++g) {
        for (std::size_t c = 0; c < u[g].values.size(); ++c) {
            u[g].values[c] += factor * (v[g].values[c] - u[g].values[c]);
        }
    }
}

Rasters difference(const Rasters& a, const Rasters& b) {
    Rasters d = a;
    for (std::size_t g = 0; g < d.size(); ++g) {
        for (std::size_t c = 0; c < d[g].values.size(); ++c) d[g].values[c] -= b[g].values[c];
    }
    return d;
}

struct Relaxation {
    const ChoiceModel* model = nullptr;
    const Allowed* allowed = nullptr;
    double base = 0.0;    // |r|^2
    PerCandidate linear;  // 2<r, W> + c
    PerCandidate energy;  // s
};

// Frank-Wolfe from the given vertex; the best value less duality gap. Given up once an iterate shows
// that not even the least value would beat `known`.
double relaxed_bound(const Relaxation& problem, double theta, const std::vector<int>& start,
                     int iterations, double known) {
    const auto fixed_part = [&](std::size_t f, std::size_t c) {
        return problem.linear[f][c] + (1.0 - theta) * problem.energy[f][c];
    };
    const auto sum_fixed = [&](const std::vector<int>& candidate) {
        double sum = 0.0;
        for (std::size_t f = 0; f < candidate.size(); ++f) {
            if (candidate[f] >= 0) sum += fixed_part(f, static_cast<std::size_t>(candidate[f]));
        }
        return sum;
    };
    Rasters laid = laid_by(*problem.model, start);
    double linear = sum_fixed(start);
    double best = -std::numeric_limits<double>::infinity();
    for (int step = 0; step < iterations; ++step) {
        const double square = square_of_all(*problem.model, laid);
        if (problem.base + linear + theta * square <= known) break;
        const PerCandidate slope = products(*problem.model, laid);
        const Vertex vertex = cheapest(*problem.allowed, [&](std::size_t f, std::size_t c) {
            return fixed_part(f, c) + 2.0 * theta * slope[f][c];
        });
        const double gap = linear + 2.0 * theta * square - vertex.value;
        best = std::max(best, problem.base + linear + theta * square - gap);
        if (gap <= 1e-12) break;
        const Rasters toward = laid_by(*problem.model, vertex.candidate);
        const double bend = theta * square_of_all(*problem.model, difference(toward, laid));
        const double share = bend > 0.0 ? std::min(1.0, gap / (2.0 * bend)) : 1.0;
        linear += share * (sum_fixed(vertex.candidate) - linear);
        move_toward(toward, share, laid);
    }
    return best;
}

// How much more than the cheapest of each alone the feedings of one group cost, at least.
double gain_of_group(const Relaxation& problem, const KeptSpacing& kept, const Vertex& separate,
                     const std::vector<std::size_t>& group) {
    const auto value = [&](std::size_t f, std::size_t c) {
        return problem.linear[f][c] + problem.energy[f][c];
    };
    std::vector<SpacedFeeding> spaced;
    double alone = 0.0;
    for (const std::size_t f : group) {
        SpacedFeeding own{kept.candidates[f], (*problem.allowed)[f], {}, 0.0};
        for (const std::size_t c : own.allowed) own.value.push_back(value(f, c));
        own.held_value = value(f, static_cast<std::size_t>(kept.chosen[f]));
        alone += value(f, static_cast<std::size_t>(separate.candidate[f]));
        spaced.push_back(std::move(own));
    }
    return std::max(0.0, spaced_bound(spaced, kept.spacing_m) - alone);
}

double gain_by_spacing(const Relaxation& problem, const KeptSpacing& kept, const Vertex& separate) {
    std::vector<double> gains(kept.groups.size());
    parallel_for(gains.size(), problem.model->threads, [&](std::size_t k) {
        gains[k] = gain_of_group(problem, kept, separate, kept.groups[k]);
    });
    double sum = 0.0;
    for (const double gain : gains) sum += gain;
    return sum;
}

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
        const auto cells = static_cast<double>(ground.ground->target_cells);
        range.area_m2 += cells * ground.ground->mask.grid.cell_area_m2();
        range.least_kg += sum_on_target(ground, ground.fixed_kg) + cells * ground.level_kg;
    }
    range.most_kg = range.least_kg;
    const PerCandidate mass = products(model, ones);
    range.least_kg +=
        cheapest(allowed, [&](std::size_t f, std::size_t c) { return mass[f][c]; }).value;
    range.most_kg -=
        cheapest(allowed, [&](std::size_t f, std::size_t c) { return -mass[f][c]; }).value;
    return range;
}

}  // namespace

Bound lower_bound(const ChoiceModel& model, const Allowed& allowed, const BoundOptions& options,
                  const KeptSpacing* kept) {
    Relaxation problem{&model, &allowed, 0.0, {}, energies(model)};
    const Rasters fixed = fixed_of(model);
    problem.base = square_of_all(model, fixed);
    problem.linear = products(model, fixed);
    for (std::size_t f = 0; f < problem.linear.size(); ++f) {
        for (std::size_t c = 0; c < problem.linear[f].size(); ++c) {
            problem.linear[f][c] = 2.0 * problem.linear[f][c] + model.feedings[f].bound_cost[c];
        }
    }
    const Vertex separate = cheapest(allowed, [&](std::size_t f, std::size_t c) {
        return problem.linear[f][c] + problem.energy[f][c];
    });
    const double apart = kept != nullptr ? gain_by_spacing(problem, *kept, separate) : 0.0;
    Bound bound{problem.base + separate.value + apart, 0.0};
    for (const double theta : options.thetas) {
        const double value = relaxed_bound(problem, theta, separate.candidate,
                                           options.iterations, bound.value);
        if (value > bound.value) bound = {value, theta};
    }
    return bound;
}

std::optional<double> cv_lower_bound(const ChoiceModel& model, const Allowed& allowed) {
    const MassRange range = mass_range(model, allowed);
    if (range.area_m2 <= 0.0 || range.least_kg <= 0.0) return std::nullopt;
    // One level for all ground: any does; the middle of the range loses least.
    const double level = 0.5 * (range.least_kg + range.most_kg) / range.area_m2;
    Rasters residual = fixed_of(model);
    for (std::size_t g = 0; g < residual.size(); ++g) {
        const GroundModel& ground = model.grounds[g];
        const double shift = ground.level_kg - level * ground.ground->mask.grid.cell_area_m2();
        for (double& value : residual[g].values) value += shift;
    }
    const PerCandidate slope = products(model, residual);
    const Vertex separate = cheapest(allowed, [&](std::size_t f, std::size_t c) {
        return 2.0 * slope[f][c] + own_energy(model, f, c);
    });
    const double mean_square =
        (square_of_all(model, residual) + separate.value) * model.normalizer / range.area_m2;
    const auto cv_square = [&](double mass_kg) {
        const double mean = mass_kg / range.area_m2;
        return (mean_square - (mean - level) * (mean - level)) / (mean * mean);
    };
    const double least = std::min(cv_square(range.least_kg), cv_square(range.most_kg));
    return std::sqrt(std::max(0.0, least));
}

}  // namespace haylane
