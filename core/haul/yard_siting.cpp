// Columns: z a site (whole, 1 = used), and for every way that exists the share of a field's hay
// that goes in by it, or of a pasture's that comes out by it. A share may not exceed its site's z:
// stronger than capacity alone, so that without capacities the relaxation is nearly whole. What a
// site takes in it gives out. The runner-up is solved for again with one of the best places shut.
#include "core/haul/yard_siting.h"

#include "core/solve/integer_program.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <utility>

#include <fmt/format.h>

namespace haylane {

namespace {

using Column = IntegerProgram::Column;
using Row = IntegerProgram::Row;
using Table = std::vector<std::vector<double>>;

constexpr double kUsedShare = 1e-7;    // of a pasture's or field's hay: less is rounding
constexpr double kTotalsRatio = 1e-6;  // supply and demand agree to this

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

// The columns of one side's ways: -1 where there is none.
using Ways = std::vector<std::vector<int>>;

class Program {
  public:
    explicit Program(const SitingProblem& problem) : problem_(&problem) {
        total_kg_ = sum(problem.demand_kg);
        scale_ = cost_scale();
        for (const SitingProblem::Site& site : problem.sites) {
            program_.columns.push_back({0.0, 1.0, true});
            program_.cost.push_back(site.fixed_cost / scale_);
        }
        out_ = add_side(problem.demand_kg, problem.cost_out);
        in_ = add_side(problem.supply_kg, problem.cost_in);
        if (!problem.supply_kg.empty()) add_balance();
        add_capacity();
        Row most{{}, 0.0, static_cast<double>(problem.most_sites)};
        for (std::size_t j = 0; j < problem.sites.size(); ++j)
            most.terms.push_back({static_cast<int>(j), 1.0});
        program_.rows.push_back(std::move(most));
    }

    // One of these at least stays unused.
    void shut_one_of(const std::vector<int>& used) {
        Row row;
        for (const int j : used) row.terms.push_back({j, 1.0});
        row.most = static_cast<double>(used.size()) - 1.0;
        program_.rows.push_back(std::move(row));
    }

    void use_only(const std::vector<int>& used) {
        for (std::size_t j = 0; j < problem_->sites.size(); ++j) {
            const bool in = std::find(used.begin(), used.end(), static_cast<int>(j)) != used.end();
            program_.columns[j] = {in ? 1.0 : 0.0, in ? 1.0 : 0.0, true};
        }
    }

    [[nodiscard]] std::optional<Siting> best() const {
        const auto values = solve(program_);
        if (!values) return std::nullopt;
        Siting siting;
        std::vector<char> has_hay(problem_->sites.size(), 0);
        siting.out_kg =
            amounts(problem_->demand_kg, problem_->cost_out, out_, *values, has_hay, siting.cost);
        siting.in_kg =
            amounts(problem_->supply_kg, problem_->cost_in, in_, *values, has_hay, siting.cost);
        for (std::size_t j = 0; j < has_hay.size(); ++j) {
            if (has_hay[j] == 0) continue;
            siting.used.push_back(static_cast<int>(j));
            siting.cost += problem_->sites[j].fixed_cost;
        }
        return siting;
    }

  private:
    // Mean cost of all hay, so that the solver's numbers lie near 1.
    [[nodiscard]] double cost_scale() const {
        double most = 0.0;
        const auto look = [&](const Table& costs, const std::vector<double>& kg) {
            for (std::size_t i = 0; i < kg.size(); ++i)
                for (const double cost : costs[i])
                    if (std::isfinite(cost)) most = std::max(most, cost * kg[i]);
        };
        look(problem_->cost_out, problem_->demand_kg);
        look(problem_->cost_in, problem_->supply_kg);
        return most > 0.0 ? most : 1.0;
    }

    Ways add_side(const std::vector<double>& kg, const Table& costs) {
        Ways ways;
        for (std::size_t i = 0; i < kg.size(); ++i) {
            std::vector<int> own(problem_->sites.size(), -1);
            Row all{{}, 1.0, 1.0};
            for (std::size_t j = 0; j < own.size(); ++j) {
                if (!std::isfinite(costs[i][j])) continue;
                own[j] = static_cast<int>(program_.columns.size());
                program_.columns.push_back({0.0, 1.0, false});
                program_.cost.push_back(costs[i][j] * kg[i] / scale_);
                all.terms.push_back({own[j], 1.0});
                Row within;
                within.terms = {{own[j], 1.0}, {static_cast<int>(j), -1.0}};
                within.most = 0.0;
                program_.rows.push_back(std::move(within));
            }
            program_.rows.push_back(std::move(all));
            ways.push_back(std::move(own));
        }
        return ways;
    }

    void add_terms(const Ways& ways, const std::vector<double>& kg, std::size_t site, double factor,
                   Row& row) const {
        for (std::size_t i = 0; i < ways.size(); ++i)
            if (ways[i][site] >= 0) row.terms.push_back({ways[i][site], factor * kg[i]});
    }

    void add_balance() {
        for (std::size_t j = 0; j < problem_->sites.size(); ++j) {
            Row row{{}, 0.0, 0.0};
            add_terms(out_, problem_->demand_kg, j, 1.0 / total_kg_, row);
            add_terms(in_, problem_->supply_kg, j, -1.0 / sum(problem_->supply_kg), row);
            program_.rows.push_back(std::move(row));
        }
    }

    void add_capacity() {
        for (std::size_t j = 0; j < problem_->sites.size(); ++j) {
            const double capacity = problem_->sites[j].capacity_kg;
            if (capacity >= total_kg_) continue;
            Row row;
            add_terms(out_, problem_->demand_kg, j, 1.0 / total_kg_, row);
            row.terms.push_back({static_cast<int>(j), -capacity / total_kg_});
            row.most = 0.0;
            program_.rows.push_back(std::move(row));
        }
    }

    static Table amounts(const std::vector<double>& kg, const Table& costs, const Ways& ways,
                         const std::vector<double>& values, std::vector<char>& has_hay,
                         double& cost) {
        Table result;
        for (std::size_t i = 0; i < kg.size(); ++i) {
            std::vector<double> own(has_hay.size(), 0.0);
            for (std::size_t j = 0; j < own.size(); ++j) {
                if (ways[i][j] < 0) continue;
                const double share = values[static_cast<std::size_t>(ways[i][j])];
                if (share <= kUsedShare || kg[i] <= 0.0) continue;
                own[j] = share * kg[i];
                cost += own[j] * costs[i][j];
                has_hay[j] = 1;
            }
            result.push_back(std::move(own));
        }
        return result;
    }

    const SitingProblem* problem_;
    double total_kg_ = 0.0;
    double scale_ = 1.0;
    IntegerProgram program_;
    Ways out_;
    Ways in_;
};

bool is_reached(const std::vector<double>& costs) {
    return std::any_of(costs.begin(), costs.end(), [](double c) { return std::isfinite(c); });
}

std::optional<Error> fault(const SitingProblem& problem) {
    const double needed = sum(problem.demand_kg);
    if (problem.sites.empty() || problem.most_sites < 1 || needed <= 0.0)
        return Error{"nothing_to_site", "There is no place to stack hay at, or no hay to stack.",
                     "", "Give at least one place, and pastures that are fed."};
    for (std::size_t k = 0; k < problem.demand_kg.size(); ++k)
        if (!is_reached(problem.cost_out[k]))
            return Error{"pasture_not_reached", "No place to stack hay has a way to a pasture.",
                         fmt::format("pasture {}", k + 1), "Look at its gates and trails."};
    for (std::size_t i = 0; i < problem.supply_kg.size(); ++i)
        if (!is_reached(problem.cost_in[i]))
            return Error{"field_not_reached", "No place to stack hay has a way from a hay field.",
                         fmt::format("hay field {}", i + 1), "Look at its gates and trails."};
    const double supplied = sum(problem.supply_kg);
    if (!problem.supply_kg.empty() && std::abs(supplied - needed) > kTotalsRatio * needed)
        return Error{"totals_differ",
                     fmt::format("Fields give {:.0f} kg of hay and pastures take {:.0f} kg.",
                                 supplied, needed),
                     "", "Give both the same total."};
    return std::nullopt;
}

Error none_found() {
    return {"no_siting", "No choice of places holds all the hay and reaches all pastures.", "",
            "Allow more places, or places that hold more."};
}

}  // namespace

Result<SitingResult> choose_sites(const SitingProblem& problem) {
    if (auto error = fault(problem)) return fail(std::move(*error));
    Program program(problem);
    auto best = program.best();
    if (!best) return fail(none_found());
    program.shut_one_of(best->used);
    return SitingResult{std::move(*best), program.best()};
}

Result<Siting> cost_of_sites(const SitingProblem& problem, const std::vector<int>& used) {
    if (auto error = fault(problem)) return fail(std::move(*error));
    SitingProblem all = problem;
    all.most_sites = static_cast<int>(std::max<std::size_t>(1, used.size()));
    Program program(all);
    program.use_only(used);
    auto siting = program.best();
    if (!siting) return fail(none_found());
    return std::move(*siting);
}

}  // namespace haylane
