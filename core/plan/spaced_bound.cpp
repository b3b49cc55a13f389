// The ground is cut into squares, twice, half a square apart, so small that two lines through one
// square are nearer than a spacing: each square is then passed by lines of one feeding at most.
// Prices on squares (Lagrange multipliers >= 0) turn that into a bound: each feeding takes its
// cheapest candidate at value plus prices passed, less the sum of all prices (Geoffrion 1974,
// Mathematical Programming Study 2). Prices climb by subgradients with Polyak's step toward the
// value of a plan that keeps the spacing; every round gives a valid bound, the best one stands.
// A candidate whose cost at a round's prices is more than that plan has to spare cannot be part of a
// cheaper one, and is left out from then on (reduced-cost fixing).
#include "core/plan/spaced_bound.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <utility>

namespace haylane {

namespace {

constexpr double kSquareRatio = 0.7;  // side in spacings; its diagonal is 0.99 of one
constexpr double kWalk_m = 1.0;       // squares that a line clips in less may be missed: no harm
constexpr int kGrids = 2;
constexpr double kSpareRatio = 1e-9;  // rounding never closes what may be part of the best plan

using Squares = std::vector<std::uint32_t>;  // of one candidate, sorted, each once

// Numbers squares as they are met.
class Numbering {
  public:
    explicit Numbering(double side_m) : side_m_(side_m) {}
    [[nodiscard]] std::size_t size() const { return number_.size(); }

    Squares of(const Candidate& candidate) {
        Squares squares;
        for (const CandidateLine& line : candidate.lines) {
            for (const Point p : densified(line.path, kWalk_m))
                for (int grid = 0; grid < kGrids; ++grid) squares.push_back(number(p, grid));
        }
        std::sort(squares.begin(), squares.end());
        squares.erase(std::unique(squares.begin(), squares.end()), squares.end());
        return squares;
    }

  private:
    std::uint32_t number(Point p, int grid) {
        const double shift = 0.5 * grid;
        const auto i = static_cast<std::int64_t>(std::floor(p.x / side_m_ + shift));
        const auto j = static_cast<std::int64_t>(std::floor(p.y / side_m_ + shift));
        const auto next = static_cast<std::uint32_t>(number_.size());
        return number_.try_emplace({grid, {i, j}}, next).first->second;
    }

    double side_m_;
    std::map<std::pair<int, std::pair<std::int64_t, std::int64_t>>, std::uint32_t> number_;
};

// Squares of every candidate; feedings that share candidates share them.
struct Layout {
    std::vector<std::vector<Squares>> sets;  // by set of candidates, by candidate
    std::vector<std::size_t> set_of;         // by feeding
    std::size_t squares = 0;
};

Layout layout_of(const std::vector<SpacedFeeding>& feedings, double spacing_m) {
    Layout layout;
    Numbering numbering(kSquareRatio * spacing_m);
    std::vector<const std::vector<Candidate>*> known;
    for (const SpacedFeeding& feeding : feedings) {
        const auto at = std::find(known.begin(), known.end(), feeding.candidates);
        layout.set_of.push_back(static_cast<std::size_t>(at - known.begin()));
        if (at != known.end()) continue;
        known.push_back(feeding.candidates);
        std::vector<Squares> set;
        for (const Candidate& candidate : *feeding.candidates)
            set.push_back(numbering.of(candidate));
        layout.sets.push_back(std::move(set));
    }
    layout.squares = numbering.size();
    return layout;
}

// One feeding while prices climb: candidates that may still be part of a cheaper plan than the held
// one, and what each costs at the present prices.
struct Open {
    std::vector<std::size_t> candidate;
    std::vector<double> value;
    std::vector<double> cost;
    std::size_t least = 0;  // place in the lists of the cheapest
};

void find_costs(const std::vector<Squares>& set, const std::vector<double>& price, Open& open) {
    open.least = 0;
    for (std::size_t k = 0; k < open.candidate.size(); ++k) {
        double sum = open.value[k];
        for (const std::uint32_t s : set[open.candidate[k]]) sum += price[s];
        open.cost[k] = sum;
        if (sum < open.cost[open.least]) open.least = k;
    }
}

// Takes out what would make any plan cost more than the held one by itself: `spare` is how far the
// bound of this round lies below it.
void close_dear(double spare, Open& open) {
    const double most = open.cost[open.least] + spare;
    std::size_t kept = 0;
    for (std::size_t k = 0; k < open.candidate.size(); ++k) {
        if (open.cost[k] > most) continue;
        open.candidate[kept] = open.candidate[k];
        open.value[kept] = open.value[k];
        ++kept;
    }
    open.candidate.resize(kept);
    open.value.resize(kept);
    open.cost.resize(kept);
}

std::vector<Open> all_open(const std::vector<SpacedFeeding>& feedings) {
    std::vector<Open> open;
    for (const SpacedFeeding& f : feedings)
        open.push_back({f.allowed, f.value, std::vector<double>(f.allowed.size()), 0});
    return open;
}

}  // namespace

double spaced_bound(const std::vector<SpacedFeeding>& feedings, double spacing_m, int rounds) {
    const Layout layout = layout_of(feedings, spacing_m);
    double held = 0.0;
    for (const SpacedFeeding& feeding : feedings) held += feeding.held_value;
    std::vector<Open> open = all_open(feedings);
    std::vector<double> price(layout.squares, 0.0);
    double best = -std::numeric_limits<double>::infinity();
    for (int round = 0; round < rounds; ++round) {
        std::vector<double> over(layout.squares, -1.0);  // passings of a square, less the one
        double value = 0.0;
        for (const double p : price) value -= p;
        for (std::size_t f = 0; f < open.size(); ++f) {
            const std::vector<Squares>& set = layout.sets[layout.set_of[f]];
            find_costs(set, price, open[f]);
            value += open[f].cost[open[f].least];
            for (const std::uint32_t s : set[open[f].candidate[open[f].least]]) over[s] += 1.0;
        }
        best = std::max(best, value);
        double square = 0.0;
        for (std::size_t s = 0; s < price.size(); ++s)
            if (over[s] > 0.0 || price[s] > 0.0) square += over[s] * over[s];
        if (square <= 0.0 || held <= value) break;
        for (Open& one : open) close_dear(held - value + kSpareRatio * std::abs(held), one);
        const double step = (held - value) / square;
        for (std::size_t s = 0; s < price.size(); ++s)
            price[s] = std::max(0.0, price[s] + step * over[s]);
    }
    return best;
}

}  // namespace haylane
