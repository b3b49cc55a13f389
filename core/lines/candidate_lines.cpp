// Families are made, every line is judged, and what is over the limit is thinned at an even stride
// through the order of family, offset and start; ways from line to line are judged last, and only
// of what is kept. Curved lines take up to a quarter of the places,
// half of it those along contours where there are enough of both.
#include "core/lines/candidate_lines.h"

#include "core/base/parallel.h"
#include "core/lines/drivable.h"
#include "core/lines/ground_curves.h"
#include "core/lines/joins.h"
#include "core/lines/straight_lines.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

namespace haylane {

namespace {

constexpr std::size_t kCurvedShare = 4;

bool is_sound(const LineRequest& request) {
    return request.max_candidates > 0 && !request.loads.empty() &&
           std::all_of(request.loads.begin(), request.loads.end(),
                       [](const auto& load) { return load.bales >= 1 && load.length_m > 0.0; });
}

bool keeps_every_rule(const FeedableGround& ground, const Candidate& candidate,
                      const LineRequest& request) {
    LineLimits limits{0.0, request.line_radius_m, request.gates, request.gate_keep_m};
    return std::all_of(candidate.lines.begin(), candidate.lines.end(),
                       [&](const CandidateLine& line) {
                           const auto& load = request.loads[static_cast<std::size_t>(line.load)];
                           limits.length_m = load.length_m / load.bales * line.bales;
                           return line_faults(ground, line, limits).empty();
                       });
}

// Numbers below `count` in the order they are to be tried: first those at an even stride.
std::vector<std::size_t> even_first(std::size_t count, std::size_t most) {
    std::vector<std::size_t> order;
    std::vector<bool> taken(count);
    for (std::size_t i = 0; i < std::min(most, count); ++i) {
        order.push_back(i * count / std::min(most, count));
        taken[order.back()] = true;
    }
    for (std::size_t k = 0; k < count; ++k)
        if (!taken[k]) order.push_back(k);
    return order;
}

// Those whose ways from line to line can be driven, at an even stride; others take the place of
// those that cannot.
std::vector<Candidate> thinned(const std::vector<Candidate>& all, std::size_t most,
                               const LineRequest& request) {
    std::vector<std::pair<std::size_t, Candidate>> kept;
    const std::vector<std::size_t> order = even_first(all.size(), most);
    for (std::size_t at = 0; kept.size() < most && at < order.size();) {
        std::vector<std::optional<Candidate>> tried(
            std::min(most - kept.size(), order.size() - at));
        parallel_for(tried.size(), request.threads,
                     [&](std::size_t n) { tried[n] = joined(all[order[at + n]], request); });
        for (std::size_t n = 0; n < tried.size(); ++n)
            if (tried[n]) kept.emplace_back(order[at + n], std::move(*tried[n]));
        at += tried.size();
    }
    std::sort(kept.begin(), kept.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Candidate> ordered;
    ordered.reserve(kept.size());
    for (auto& [k, candidate] : kept) ordered.push_back(std::move(candidate));
    return ordered;
}

std::vector<Candidate> judged(std::vector<Candidate> all, const FeedableGround& ground,
                              const LineRequest& request) {
    std::vector<char> keeps(all.size());
    parallel_for(all.size(), request.threads,
                 [&](std::size_t c) { keeps[c] = keeps_every_rule(ground, all[c], request); });
    std::vector<Candidate> kept;
    for (std::size_t c = 0; c < all.size(); ++c)
        if (keeps[c] != 0) kept.push_back(std::move(all[c]));
    return kept;
}

void append(std::vector<Candidate>& all, std::vector<Candidate> more) {
    std::move(more.begin(), more.end(), std::back_inserter(all));
}

std::vector<Candidate> curved_candidates(const FeedableGround& ground, const LineRequest& request,
                                         const GroundCurves& curves, std::size_t share) {
    const int wanted = static_cast<int>(share);
    const std::vector<Candidate> contour =
        judged(candidates_on(curves.contour, request, wanted), ground, request);
    const std::vector<Candidate> boundary =
        judged(candidates_on(curves.boundary, request, wanted), ground, request);
    const std::size_t half = std::min(contour.size(), share / 2);
    std::vector<Candidate> curved = thinned(boundary, share - half, request);
    append(curved, thinned(contour, share - curved.size(), request));
    return curved;
}

}  // namespace

std::string_view to_string(LineFamily family) {
    switch (family) {
        case LineFamily::straight:
            return "straight";
        case LineFamily::boundary:
            return "boundary";
        case LineFamily::contour:
            return "contour";
        case LineFamily::site:
            return "site";
    }
    return "straight";
}

MultiPolyline paths_of(const Candidate& candidate) {
    MultiPolyline paths;
    for (const CandidateLine& line : candidate.lines) paths.push_back(line.path);
    return paths;
}

std::vector<Candidate> candidate_lines(const FeedableGround& ground, const LineRequest& request) {
    if (!is_sound(request)) return {};
    return candidate_lines(
        ground, request,
        curves_on(ground, request.line_radius_m, request.spacing_m, request.threads));
}

std::vector<Candidate> candidate_lines(const FeedableGround& ground, const LineRequest& request,
                                       const GroundCurves& given) {
    if (!is_sound(request)) return {};
    const auto most = static_cast<std::size_t>(request.max_candidates);
    std::vector<Candidate> curved =
        curved_candidates(ground, request, given, std::max<std::size_t>(1, most / kCurvedShare));
    const std::size_t left = most - curved.size();
    const std::vector<Candidate> straight =
        judged(straight_candidates(ground, request, static_cast<int>(left)), ground, request);
    std::vector<Candidate> all = thinned(straight, left, request);
    append(all, std::move(curved));
    return all;
}

}  // namespace haylane
