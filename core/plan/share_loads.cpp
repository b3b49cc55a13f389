// Dynamic programming over how many lines are done and how many loads of each kind are used; loads
// of as many bales and as much hay are one kind. What is made least is the sum of squares of metres
// by which lines are longer or shorter than one lay rate would have them. Within a load, each bale
// goes to the line that lacks most.
#include "core/plan/share_loads.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <utility>

namespace haylane {

namespace {

constexpr double kMostStates = 20000.0;
constexpr double kInfinite = std::numeric_limits<double>::infinity();

using Used = std::vector<std::size_t>;  // loads of each kind

struct Step {
    double cost = kInfinite;
    std::size_t kind = 0;
    std::size_t lines = 0;
};

class Sharing {
  public:
    Sharing(const std::vector<ScheduledLoad>& loads, const std::vector<double>& lengths_m)
        : loads_(&loads), lengths_(&lengths_m) {
        double hay_kg = 0.0;
        for (const ScheduledLoad& load : loads) hay_kg += load.hay_kg;
        m_per_kg_ = std::accumulate(lengths_m.begin(), lengths_m.end(), 0.0) / hay_kg;
        sort_by_kind();
    }

    std::optional<std::vector<LineShare>> run() {
        Used used(kinds_.size(), 0);
        if (!std::isfinite(best(0, used).cost)) return std::nullopt;
        std::vector<LineShare> shares;
        while (shares.size() < lengths_->size()) {
            const Step step = best(shares.size(), used);
            const std::size_t load = kinds_[step.kind][used[step.kind]++];
            const std::vector<int> bales = bales_of(load, shares.size(), step.lines);
            for (const int count : bales) shares.push_back({static_cast<int>(load), count});
        }
        return shares;
    }

  private:
    void sort_by_kind() {
        std::map<std::pair<int, double>, std::vector<std::size_t>> by_kind;
        for (std::size_t l = 0; l < loads_->size(); ++l)
            by_kind[{(*loads_)[l].bales, (*loads_)[l].hay_kg}].push_back(l);
        double states = static_cast<double>(lengths_->size() + 1);
        for (auto& [kind, members] : by_kind) {
            states *= static_cast<double>(members.size() + 1);
            kinds_.push_back(std::move(members));
        }
        if (states <= kMostStates) return;
        kinds_.assign(1, Used(loads_->size()));
        std::iota(kinds_.front().begin(), kinds_.front().end(), 0);
    }

    Step best(std::size_t line, const Used& used) {
        const auto key = std::make_pair(line, used);
        if (const auto known = known_.find(key); known != known_.end()) return known->second;
        Step step;
        if (line == lengths_->size()) {
            const bool all =
                std::accumulate(used.begin(), used.end(), std::size_t{0}) == loads_->size();
            step.cost = all ? 0.0 : kInfinite;
        } else {
            for (std::size_t k = 0; k < kinds_.size(); ++k) try_kind(k, line, used, step);
        }
        known_[key] = step;
        return step;
    }

    void try_kind(std::size_t kind, std::size_t line, const Used& used, Step& step) {
        if (used[kind] == kinds_[kind].size()) return;
        const std::size_t load = kinds_[kind][used[kind]];
        Used after = used;
        ++after[kind];
        const std::size_t most =
            std::min(lengths_->size() - line, static_cast<std::size_t>((*loads_)[load].bales));
        for (std::size_t lines = 1; lines <= most; ++lines) {
            const double cost = cost_of(load, line, lines) + best(line + lines, after).cost;
            if (cost < step.cost) step = {cost, kind, lines};
        }
    }

    [[nodiscard]] double bale_m(std::size_t load) const {
        return (*loads_)[load].hay_kg * m_per_kg_ / (*loads_)[load].bales;
    }

    [[nodiscard]] std::vector<int> bales_of(std::size_t load, std::size_t from,
                                            std::size_t lines) const {
        std::vector<int> bales(lines, 1);
        for (int left = (*loads_)[load].bales - static_cast<int>(lines); left > 0; --left) {
            const auto lack = [&](std::size_t i) {
                return (*lengths_)[from + i] - bale_m(load) * bales[i];
            };
            std::size_t most = 0;
            for (std::size_t i = 1; i < lines; ++i)
                if (lack(i) > lack(most)) most = i;
            ++bales[most];
        }
        return bales;
    }

    [[nodiscard]] double cost_of(std::size_t load, std::size_t from, std::size_t lines) const {
        const std::vector<int> bales = bales_of(load, from, lines);
        double sum = 0.0;
        for (std::size_t i = 0; i < lines; ++i) {
            const double off = (*lengths_)[from + i] - bale_m(load) * bales[i];
            sum += off * off;
        }
        return sum;
    }

    const std::vector<ScheduledLoad>* loads_;
    const std::vector<double>* lengths_;
    double m_per_kg_ = 0.0;
    std::vector<std::vector<std::size_t>> kinds_;
    std::map<std::pair<std::size_t, Used>, Step> known_;
};

}  // namespace

std::optional<std::vector<LineShare>> share_loads(const std::vector<ScheduledLoad>& loads,
                                                  const std::vector<double>& lengths_m) {
    if (loads.empty() || lengths_m.size() < loads.size()) return std::nullopt;
    for (const double length : lengths_m)
        if (!(length > 0.0)) return std::nullopt;
    return Sharing(loads, lengths_m).run();
}

}  // namespace haylane
