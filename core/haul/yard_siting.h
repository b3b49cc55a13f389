#pragma once
// Where to stack hay: which of the candidate places to use, so that hauling the hay in from the
// fields in summer and out to the pastures in winter costs least. Proven optimal.

#include "core/base/result.h"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

// All amounts in kg of hay, all costs in money (or seconds) a kg; infinity where there is no way.
struct SitingProblem {
    struct Site {
        std::string name;
        double capacity_kg = std::numeric_limits<double>::infinity();
        double fixed_cost = 0.0;  // of using the place at all, a season
    };
    std::vector<Site> sites;
    std::vector<double> supply_kg;              // by field; empty: where hay comes from is left out
    std::vector<double> demand_kg;              // by pasture
    std::vector<std::vector<double>> cost_in;   // by field, by site
    std::vector<std::vector<double>> cost_out;  // by pasture, by site
    int most_sites = 1;                         // p: at most so many are used
};

struct Siting {
    std::vector<int> used;                    // sites, ascending
    double cost = 0.0;                        // all hay, in and out, and the fixed costs
    std::vector<std::vector<double>> in_kg;   // by field, by site
    std::vector<std::vector<double>> out_kg;  // by pasture, by site
};
struct SitingResult {
    Siting best;
    std::optional<Siting>
        runner_up;  // the best that leaves out one of those; none: there is no other
};

// Least cost over all sets of at most `most_sites` places (Hakimi 1964 for one kind of haul without
// capacities: the p-median). Fields' hay is hauled in as far as the pastures need it. Ties of cost
// go to whichever the solver finds first, the same on every run. Errors: sites that together hold
// less than is needed, a pasture or field that no site reaches, less hay than the pastures need.
// Method: a mixed integer program by Cbc (core/solve), one whole column a site.
[[nodiscard]] Result<SitingResult> choose_sites(const SitingProblem& problem);
// What the given set costs when it is used as well as it can be.
[[nodiscard]] Result<Siting> cost_of_sites(const SitingProblem& problem,
                                           const std::vector<int>& used);

}  // namespace haylane
