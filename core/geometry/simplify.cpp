// Spans still to be looked at stand in a list, not on the call stack: a spiral would nest as deep
// as it has points. Distance is to the segment, not to its endless line, so that a rig that went
// past the end and came back keeps the place where it turned.
#include "core/geometry/simplify.h"

#include <utility>

namespace haylane {

Polyline simplified(const Polyline& line, double tolerance_m) {
    if (line.size() < 3) return line;
    std::vector<bool> kept(line.size(), false);
    kept.front() = kept.back() = true;
    std::vector<std::pair<std::size_t, std::size_t>> spans{{0, line.size() - 1}};
    while (!spans.empty()) {
        const auto [from, to] = spans.back();
        spans.pop_back();
        double farthest_m = tolerance_m;
        std::size_t at = from;
        for (std::size_t i = from + 1; i < to; ++i) {
            const double away_m =
                distance_m(line[i], nearest_on_segment(line[i], line[from], line[to]));
            if (away_m <= farthest_m) continue;
            farthest_m = away_m;
            at = i;
        }
        if (at == from) continue;
        kept[at] = true;
        spans.emplace_back(from, at);
        spans.emplace_back(at, to);
    }
    Polyline out;
    for (std::size_t i = 0; i < line.size(); ++i)
        if (kept[i]) out.push_back(line[i]);
    return out;
}

}  // namespace haylane
