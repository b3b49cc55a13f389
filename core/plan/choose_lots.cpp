// Method: a mixed integer program. Whole columns: bales of each lot, whether it is used, and which
// used lot's bale sets the width of the window (any used lot may, so the heaviest can).
// Requirements are linear once written as "sum of eaten DM x (content - requirement) >= 0". Solved
// in turn for least shortfall (only if no mix meets the requirement), least cost, and then lowest
// lot ids at that cost, so that ties are settled by rule and not by the solver's path.
#include "core/plan/choose_lots.h"

#include "core/base/require.h"
#include "core/solve/integer_program.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

using Row = IntegerProgram::Row;

constexpr double kToleranceKg = 1e-6;  // far under any scale, far over rounding of sums
constexpr double kToleranceCost = 1e-9;
constexpr double kFeedFirstFactor = 10.0;

// How far the rules are loosened to find a mix at all.
struct Leeway {
    int most_lots = 2;
    int round_to_bales = 1;
    bool may_fall_short = false;
};

class Mix {
  public:
    Mix(const LotRequest& request, const Leeway& leeway) : request_(request), leeway_(leeway) {
        add_columns();
        add_use_rows();
        if (request.bales) {
            add_count_row();
        } else {
            add_window_rows();
        }
        add_straw_row();
        add_nitrate_row();
        add_requirement_rows();
    }

    // Bales by offer of the best mix; nullopt when there is none.
    std::optional<std::vector<int>> best() {
        if (leeway_.may_fall_short) {
            const auto nearest = minimise(short_cost());
            if (!nearest) return std::nullopt;
            hold(short_cost(), *nearest);
        }
        const auto cheapest = minimise(money_cost());
        if (!cheapest) return std::nullopt;
        hold(money_cost(), *cheapest);
        const auto settled = minimise(order_cost());
        const std::vector<int> first = counts(*cheapest);
        if (!settled) return first;
        const std::vector<int> second = counts(*settled);
        return money(second) <= money(first) + 1e-7 ? second : first;
    }

  private:
    const std::vector<LotOffer>& offers() const { return request_.offers; }
    int size() const { return static_cast<int>(offers().size()); }
    const LotOffer& offer(int i) const { return offers()[static_cast<std::size_t>(i)]; }
    int count_column(int i) const { return i; }
    int used_column(int i) const { return size() + i; }
    int widest_column(int i) const { return 2 * size() + i; }
    int loads_column() const { return 3 * size(); }
    int cp_short_column() const { return 3 * size() + 1; }
    int tdn_short_column() const { return 3 * size() + 2; }

    int wanted_bales() const {
        const int round = leeway_.round_to_bales;
        return (*request_.bales + round - 1) / round * round;
    }

    int most_bales(const LotOffer& o) const {
        if (request_.bales) return std::min(o.available, wanted_bales());
        double heaviest_kg = 0.0;
        for (const LotOffer& each : offers()) heaviest_kg = std::max(heaviest_kg, each.bale_dm_kg);
        const double most_kg = request_.least_kg + leeway_.round_to_bales * heaviest_kg;
        return static_cast<int>(std::min<double>(o.available, std::ceil(most_kg / o.bale_dm_kg)));
    }

    void add_columns() {
        for (const LotOffer& o : offers())
            program_.columns.push_back({.most = static_cast<double>(most_bales(o))});
        for (int i = 0; i < 2 * size(); ++i) program_.columns.push_back({.most = 1.0});
        program_.columns.push_back({});
        const double most_short = leeway_.may_fall_short ? Row{}.most : 0.0;
        program_.columns.push_back({.most = most_short, .whole = false});
        program_.columns.push_back({.most = most_short, .whole = false});
    }

    void add_use_rows() {
        Row lots{.most = static_cast<double>(leeway_.most_lots)};
        for (int i = 0; i < size(); ++i) {
            const double most = most_bales(offer(i));
            program_.rows.push_back(
                {.terms = {{count_column(i), 1.0}, {used_column(i), -most}}, .most = 0.0});
            program_.rows.push_back(
                {.terms = {{count_column(i), 1.0}, {used_column(i), -1.0}}, .least = 0.0});
            lots.terms.push_back({used_column(i), 1.0});
        }
        program_.rows.push_back(lots);
    }

    void add_count_row() {
        const double wanted = wanted_bales();
        Row row{.least = wanted, .most = wanted};
        for (int i = 0; i < size(); ++i) row.terms.push_back({count_column(i), 1.0});
        program_.rows.push_back(row);
    }

    void add_window_rows() {
        const double round = leeway_.round_to_bales;
        Row enough{.least = request_.least_kg - kToleranceKg};
        Row not_too_much{.most = request_.least_kg - kToleranceKg};
        Row one_widest{.least = 1.0, .most = 1.0};
        Row whole_loads{.terms = {{loads_column(), -round}}, .least = 0.0, .most = 0.0};
        for (int i = 0; i < size(); ++i) {
            const double bale_kg = offer(i).bale_dm_kg;
            enough.terms.push_back({count_column(i), bale_kg});
            not_too_much.terms.push_back({count_column(i), bale_kg});
            not_too_much.terms.push_back({widest_column(i), -round * bale_kg});
            one_widest.terms.push_back({widest_column(i), 1.0});
            whole_loads.terms.push_back({count_column(i), 1.0});
            program_.rows.push_back(
                {.terms = {{widest_column(i), 1.0}, {used_column(i), -1.0}}, .most = 0.0});
        }
        program_.rows.insert(program_.rows.end(), {enough, not_too_much, one_widest, whole_loads});
    }

    void add_straw_row() {
        Row row{.most = kToleranceKg};
        for (int i = 0; i < size(); ++i) {
            const double share = (offer(i).straw ? 1.0 : 0.0) - request_.straw_limit_ratio;
            row.terms.push_back({count_column(i), share * offer(i).bale_dm_kg});
        }
        program_.rows.push_back(row);
    }

    void add_nitrate_row() {
        if (!request_.pregnant) return;
        Row row{.least = 1.0};
        for (int i = 0; i < size(); ++i) {
            if (!offer(i).high_nitrate) row.terms.push_back({count_column(i), 1.0});
        }
        program_.rows.push_back(row);
    }

    void add_requirement_rows() {
        if (!request_.requirement) return;
        add_requirement_row(request_.requirement->cp_ratio, &LotOffer::cp_ratio,
                            request_.cake_cp_ratio, cp_short_column());
        add_requirement_row(request_.requirement->tdn_ratio, &LotOffer::tdn_ratio,
                            request_.cake_tdn_ratio, tdn_short_column());
    }

    void add_requirement_row(double required, double LotOffer::*content, double cake_content,
                             int short_column) {
        Row row{.terms = {{short_column, 1.0}},
                .least = -request_.cake_dm_kg * (cake_content - required) - kToleranceKg};
        for (int i = 0; i < size(); ++i) {
            const double eaten_kg = (1.0 - request_.waste_ratio) * offer(i).bale_dm_kg;
            row.terms.push_back({count_column(i), eaten_kg * (offer(i).*content - required)});
        }
        program_.rows.push_back(row);
    }

    std::vector<double> no_cost() const {
        return std::vector<double>(program_.columns.size(), 0.0);
    }

    std::vector<double> short_cost() const {
        std::vector<double> cost = no_cost();
        cost[static_cast<std::size_t>(cp_short_column())] = 1.0 / request_.requirement->cp_ratio;
        cost[static_cast<std::size_t>(tdn_short_column())] = 1.0 / request_.requirement->tdn_ratio;
        return cost;
    }

    std::vector<double> money_cost() const {
        const std::vector<double> by_bale = weighed_costs();
        const double scale = std::max(1e-9, *std::max_element(by_bale.begin(), by_bale.end()));
        std::vector<double> cost = no_cost();
        for (std::size_t i = 0; i < by_bale.size(); ++i) cost[i] = by_bale[i] / scale;
        return cost;
    }

    std::vector<double> order_cost() const {
        std::vector<double> cost = no_cost();
        for (std::size_t i = 0; i < offers().size(); ++i) cost[i] = static_cast<double>(i + 1);
        return cost;
    }

    // Cost of a bale, with what is laid on hay that should wait for feed_first lots.
    std::vector<double> weighed_costs() const {
        bool any_first = false;
        double dearest_per_kg = 0.0;
        for (const LotOffer& o : offers()) {
            any_first = any_first || o.feed_first;
            dearest_per_kg = std::max(dearest_per_kg, o.cost_per_bale / o.bale_dm_kg);
        }
        if (dearest_per_kg <= 0.0) dearest_per_kg = 1.0;  // no prices: the rule still holds
        std::vector<double> costs;
        for (const LotOffer& o : offers()) {
            const bool waits = any_first && !o.feed_first;
            const double extra = waits ? kFeedFirstFactor * dearest_per_kg * o.bale_dm_kg : 0.0;
            costs.push_back(o.cost_per_bale + extra);
        }
        return costs;
    }

    double money(const std::vector<int>& bales) const {
        const std::vector<double> by_bale = weighed_costs();
        double sum = 0.0;
        for (std::size_t i = 0; i < bales.size(); ++i) sum += bales[i] * by_bale[i];
        return sum;
    }

    std::optional<std::vector<double>> minimise(const std::vector<double>& cost) {
        program_.cost = cost;
        return solve(program_);
    }

    // From now on `cost` may not rise above its value at `best`.
    void hold(const std::vector<double>& cost, const std::vector<double>& best) {
        Row row;
        double value = 0.0;
        for (std::size_t c = 0; c < cost.size(); ++c) {
            if (cost[c] == 0.0) continue;
            row.terms.push_back({static_cast<int>(c), cost[c]});
            value += cost[c] * best[c];
        }
        row.most = value + kToleranceCost * (1.0 + std::abs(value));
        if (!row.terms.empty()) program_.rows.push_back(row);
    }

    std::vector<int> counts(const std::vector<double>& values) const {
        std::vector<int> bales;
        for (std::size_t i = 0; i < offers().size(); ++i)
            bales.push_back(static_cast<int>(values[i]));
        return bales;
    }

    const LotRequest& request_;
    Leeway leeway_;
    IntegerProgram program_;
};

LotRequest sorted(LotRequest request) {
    auto& offers = request.offers;
    std::erase_if(offers,
                  [](const LotOffer& o) { return o.available <= 0 || o.bale_dm_kg <= 0.0; });
    std::sort(offers.begin(), offers.end(),
              [](const LotOffer& a, const LotOffer& b) { return a.lot < b.lot; });
    return request;
}

bool holds_enough(const LotRequest& request) {
    double kg = 0.0;
    long bales = 0;
    for (const LotOffer& o : request.offers) {
        kg += o.available * o.bale_dm_kg;
        bales += o.available;
    }
    return request.bales ? bales >= *request.bales : kg >= request.least_kg - kToleranceKg;
}

std::optional<std::vector<int>> find_mix(const LotRequest& request) {
    const int all_lots = static_cast<int>(request.offers.size());
    const int round = request.round_to_bales;
    for (Leeway leeway : {Leeway{2, round}, Leeway{all_lots, round}, Leeway{all_lots, 1}}) {
        if (auto met = Mix(request, leeway).best()) return met;
        if (!request.requirement) continue;
        leeway.may_fall_short = true;
        if (auto nearest = Mix(request, leeway).best()) return nearest;
    }
    return std::nullopt;
}

LotChoice describe(const LotRequest& request, const std::vector<int>& bales) {
    LotChoice choice;
    double eaten_kg = request.cake_dm_kg;
    double cp_kg = request.cake_dm_kg * request.cake_cp_ratio;
    double tdn_kg = request.cake_dm_kg * request.cake_tdn_ratio;
    for (std::size_t i = 0; i < bales.size(); ++i) {
        const LotOffer& o = request.offers[i];
        if (bales[i] == 0) continue;
        const double dm_kg = bales[i] * o.bale_dm_kg;
        const double hay_eaten_kg = (1.0 - request.waste_ratio) * dm_kg;
        choice.picks.push_back({o.lot, bales[i]});
        choice.dm_kg += dm_kg;
        choice.cost += bales[i] * o.cost_per_bale;
        eaten_kg += hay_eaten_kg;
        cp_kg += hay_eaten_kg * o.cp_ratio;
        tdn_kg += hay_eaten_kg * o.tdn_ratio;
    }
    if (eaten_kg <= 0.0) return choice;
    choice.cp_ratio = cp_kg / eaten_kg;
    choice.tdn_ratio = tdn_kg / eaten_kg;
    if (!request.requirement) return choice;
    const auto short_of = [&](double required, double has) {
        return (required - has) * eaten_kg > 2.0 * kToleranceKg ? required - has : 0.0;
    };
    choice.cp_short_ratio = short_of(request.requirement->cp_ratio, choice.cp_ratio);
    choice.tdn_short_ratio = short_of(request.requirement->tdn_ratio, choice.tdn_ratio);
    return choice;
}

Error hay_short(bool enough_in_all) {
    if (enough_in_all) {
        return {.code = "hay_short",
                .what =
                    "there is enough hay, but not enough that may be fed together: too much of "
                    "it is straw, or high in nitrate for cows in calf",
                .where = {},
                .remedy = "offer a lot that is neither, or raise straw_limit_pct"};
    }
    return {.code = "hay_short",
            .what = "the lots that may be fed hold too little hay for this feeding",
            .where = {},
            .remedy = "buy hay, correct the bale counts, or take keep_to off a lot"};
}

}  // namespace

Result<LotChoice> choose_lots(const LotRequest& request) {
    require(request.round_to_bales >= 1, "choose_lots: round_to_bales at least 1");
    require(request.waste_ratio >= 0.0 && request.waste_ratio < 1.0,
            "choose_lots: waste in [0, 1)");
    const LotRequest usable = sorted(request);
    const bool nothing = request.bales ? *request.bales <= 0 : request.least_kg <= kToleranceKg;
    if (nothing) return LotChoice{};
    if (!holds_enough(usable)) return fail(hay_short(false));
    const auto bales = find_mix(usable);
    if (!bales) return fail(hay_short(true));
    return describe(usable, *bales);
}

LotChoice lots_as_given(const LotRequest& request, const std::vector<LotPick>& picks) {
    const LotRequest usable = sorted(request);
    std::vector<int> bales(usable.offers.size(), 0);
    for (const LotPick& pick : picks) {
        for (std::size_t i = 0; i < bales.size(); ++i)
            if (usable.offers[i].lot == pick.lot) bales[i] += pick.count;
    }
    return describe(usable, bales);
}

}  // namespace haylane
