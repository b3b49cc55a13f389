#pragma once
// A small choice of lines written out as numbers, and its best plan: J = base + sum of what each
// feeding's candidate adds alone + what pairs of feedings share, exact because J is quadratic.

#include "core/plan/choice_model.h"
#include "core/plan/line_rules.h"
#include "core/plan/plan_objective.h"
#include "core/solve/integer_program.h"

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace haylane::testing {

inline constexpr double kForbidden = std::numeric_limits<double>::infinity();

struct PairTable {
    double base = 0.0;
    std::vector<std::vector<double>> alone;  // by feeding, by candidate; infinity: not clear
    // By feeding f and g < f, by candidate of f, by candidate of g; infinity: not clear.
    std::vector<std::vector<std::vector<std::vector<double>>>> shared;
};

inline std::vector<std::vector<Band>> all_laid(const ChoiceModel& model) {
    std::vector<std::vector<Band>> laid(model.feedings.size());
    for (std::size_t f = 0; f < laid.size(); ++f)
        for (std::size_t c = 0; c < model.feedings[f].candidates(); ++c)
            laid[f].push_back(laid_kg(model, f, c));
    return laid;
}

// Every number from the deposits themselves, none from the adjoint fields that the planner uses.
inline PairTable pair_table(const ChoiceModel& model, const LineRules& rules) {
    PairTable table;
    const auto laid = all_laid(model);
    for (const GroundModel& ground : model.grounds)
        table.base += square_of(ground, ground.fixed_kg);
    for (std::size_t f = 0; f < laid.size(); ++f) {
        const GroundModel& ground = model.grounds[model.feedings[f].ground];
        const Raster<std::uint8_t>& target = ground.ground->target;
        table.alone.emplace_back();
        table.shared.emplace_back(f);
        for (std::size_t c = 0; c < laid[f].size(); ++c) {
            const double change = ground.scale * (2.0 * dot(laid[f][c], ground.fixed_kg, target) +
                                                  dot(laid[f][c], laid[f][c], target)) +
                                  model.feedings[f].cost[c];
            const bool clear = rules.from_resting(f)[c] == Clearance::clear;
            table.alone[f].push_back(clear ? change : kForbidden);
            for (std::size_t g = 0; g < f; ++g) {
                std::vector<double> row(laid[g].size(), 0.0);
                for (std::size_t d = 0; d < row.size(); ++d) {
                    if (model.feedings[g].ground != model.feedings[f].ground) continue;
                    row[d] = 2.0 * ground.scale * dot(laid[f][c], laid[g][d], target);
                    if (rules.keep_apart(f, g) && rules.between(f, c, g, d) != Clearance::clear)
                        row[d] = kForbidden;
                }
                table.shared[f][g].push_back(std::move(row));
            }
        }
    }
    return table;
}

struct BestPlan {
    double objective = kForbidden;  // infinity: no plan keeps the rules
    std::vector<int> chosen;
};

// Tries every plan, feeding by feeding; a branch is left as soon as it cannot beat the best, since
// what pairs share is never below 0.
class EveryPlan {
  public:
    explicit EveryPlan(const PairTable& table) : table_(&table), least_(table.alone.size() + 1) {
        for (std::size_t f = table.alone.size(); f-- > 0;) {
            double least = kForbidden;
            for (const double change : table.alone[f]) least = std::min(least, change);
            least_[f] = least_[f + 1] + least;
        }
    }
    [[nodiscard]] BestPlan best() {
        add(0, table_->base);
        return best_;
    }

  private:
    void add(std::size_t f, double objective) {
        if (objective + least_[f] >= best_.objective) return;
        if (f == table_->alone.size()) {
            best_ = {objective, chosen_};
            return;
        }
        for (std::size_t c = 0; c < table_->alone[f].size(); ++c) {
            double with = objective + table_->alone[f][c];
            for (std::size_t g = 0; g < f; ++g)
                with += table_->shared[f][g][c][static_cast<std::size_t>(chosen_[g])];
            chosen_.push_back(static_cast<int>(c));
            add(f + 1, with);
            chosen_.pop_back();
        }
    }

    const PairTable* table_;
    std::vector<double> least_;  // by feeding: the least that it and those after it add alone
    std::vector<int> chosen_;
    BestPlan best_;
};

// The same by the integer solver: x = 1 for a feeding's candidate, and for each pair of candidates
// y = x x', made exact by sum over d of y(f,c,g,d) = x(f,c) and likewise for g.
inline std::optional<BestPlan> best_by_solver(const PairTable& table) {
    IntegerProgram program;
    std::vector<std::vector<int>> x;
    const auto column = [&](double cost, bool whole) {
        const bool allowed = cost < kForbidden;
        program.columns.push_back({0.0, allowed ? 1.0 : 0.0, whole});
        program.cost.push_back(allowed ? cost : 0.0);
        return static_cast<int>(program.columns.size()) - 1;
    };
    for (const std::vector<double>& own : table.alone) {
        x.emplace_back();
        IntegerProgram::Row one{{}, 1.0, 1.0};
        for (const double change : own) {
            x.back().push_back(column(change, true));
            one.terms.push_back({x.back().back(), 1.0});
        }
        program.rows.push_back(one);
    }
    for (std::size_t f = 0; f < x.size(); ++f) {
        for (std::size_t g = 0; g < f; ++g) {
            std::vector<IntegerProgram::Row> of_g(x[g].size());
            for (std::size_t c = 0; c < x[f].size(); ++c) {
                IntegerProgram::Row of_f{{{x[f][c], -1.0}}, 0.0, 0.0};
                for (std::size_t d = 0; d < x[g].size(); ++d) {
                    const int y = column(table.shared[f][g][c][d], false);
                    of_f.terms.push_back({y, 1.0});
                    of_g[d].terms.push_back({y, 1.0});
                }
                program.rows.push_back(of_f);
            }
            for (std::size_t d = 0; d < x[g].size(); ++d) {
                of_g[d].terms.push_back({x[g][d], -1.0});
                of_g[d].least = of_g[d].most = 0.0;
                program.rows.push_back(of_g[d]);
            }
        }
    }
    const auto values = solve(program);
    if (!values) return std::nullopt;
    BestPlan best{table.base, {}};
    for (std::size_t n = 0; n < values->size(); ++n)
        best.objective += program.cost[n] * (*values)[n];
    for (const std::vector<int>& own : x) {
        best.chosen.push_back(-1);
        for (std::size_t c = 0; c < own.size(); ++c)
            if ((*values)[static_cast<std::size_t>(own[c])] > 0.5)
                best.chosen.back() = static_cast<int>(c);
    }
    return best;
}

}  // namespace haylane::testing
