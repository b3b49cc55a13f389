// Families are made, every line is judged, and what is over the limit is thinned at an even stride
// through the order of family, offset and start. Curved lines take up to a quarter of the places.
#include "core/lines/candidate_lines.h"

#include "core/lines/boundary_lines.h"
#include "core/lines/drivable.h"
#include "core/lines/straight_lines.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace haylane {

namespace {

constexpr int kCurvedShare = 4;

bool is_sound(const LineRequest& request) {
    return request.max_candidates > 0 && !request.loads.empty() &&
           std::all_of(request.loads.begin(), request.loads.end(),
                       [](const auto& load) { return load.bales >= 1 && load.length_m > 0.0; });
}

bool keeps_every_rule(const FeedableGround& ground, const Candidate& candidate,
                      const LineRequest& request) {
    LineRules rules{0.0, request.line_radius_m, request.gates, request.gate_keep_m};
    return std::all_of(candidate.lines.begin(), candidate.lines.end(),
                       [&](const CandidateLine& line) {
                           const auto& load = request.loads[static_cast<std::size_t>(line.load)];
                           rules.length_m = load.length_m / load.bales * line.bales;
                           return line_faults(ground, line, rules).empty();
                       });
}

std::vector<Candidate> thinned(std::vector<Candidate> all, std::size_t most) {
    if (all.size() <= most) return all;
    std::vector<Candidate> kept;
    kept.reserve(most);
    for (std::size_t i = 0; i < most; ++i) kept.push_back(std::move(all[i * all.size() / most]));
    return kept;
}

}  // namespace

std::vector<Candidate> candidate_lines(const FeedableGround& ground, const LineRequest& request) {
    if (!is_sound(request)) return {};
    const auto judged = [&](std::vector<Candidate> all) {
        std::erase_if(all, [&](const Candidate& candidate) {
            return !keeps_every_rule(ground, candidate, request);
        });
        return all;
    };
    std::vector<Candidate> curved;
    if (request.line_radius_m > 0.0) {
        const int share = std::max(1, request.max_candidates / kCurvedShare);
        // Rings that cannot be made leave the straight families, which always can.
        if (auto found = boundary_candidates(ground, request, share))
            curved = thinned(judged(std::move(*found)), static_cast<std::size_t>(share));
    }
    const int left = request.max_candidates - static_cast<int>(curved.size());
    std::vector<Candidate> all = thinned(judged(straight_candidates(ground, request, left)),
                                         static_cast<std::size_t>(std::max(0, left)));
    std::move(curved.begin(), curved.end(), std::back_inserter(all));
    return all;
}

}  // namespace haylane
