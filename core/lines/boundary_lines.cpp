// Rings are the boundary of the ground shrunk by 0.5 m and every half spacing more, closed and then
// opened by a disk a tenth larger than the least radius (Serra 1982, Image Analysis and
// Mathematical Morphology): closing rounds corners that stick into the ground, opening those of the
// ground. Buffers give chords, so rings are resampled at half a metre and passed twice through a
// moving average as wide as two chords, which brings curvature back under the limit at the cost of
// at most 0.2 m sideways. A boundary of very many corners (hundreds of round setbacks) is not
// rounded, since the buffers would take too long: lines then end at its corners. What still bends
// too much, leaves the ground or is too steep is cut out.
#include "core/lines/boundary_lines.h"

#include "core/geometry/boolean_ops.h"
#include "core/lines/loads.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace haylane {

namespace {

constexpr double kFirst_m = 0.5;     // first ring inside the ground
constexpr double kDeepest_m = 60.0;  // last ring
constexpr std::size_t kManyCorners = 1500;
constexpr double kRadiusMargin = 1.1;
constexpr double kFine_m = 0.5;    // step while rounding
constexpr std::size_t kChunk = 4;  // fine steps judged together
constexpr double kPathStep_m = 1.9;
constexpr double kRoomTrim_m = 0.01;
constexpr double kLeastApart = 0.95;  // of the spacing, between lines on different rings

// Part of a ring that may be driven, in the ring's direction.
struct Run {
    Polyline path;
    double length_m = 0.0;
    Box box;
};

using Level = std::vector<Run>;  // runs at one distance from the boundary

std::size_t corner_count(const MultiPolygon& shape) {
    std::size_t count = 0;
    for (const Polyline& ring : boundary_lines(shape)) count += ring.size();
    return count;
}

Result<MultiPolygon> rounded(const MultiPolygon& shape, double radius) {
    if (corner_count(shape) > kManyCorners) return shape;
    auto wide = buffer_shape(shape, radius);
    if (!wide || wide->empty()) return wide;
    auto thin = erode(*wide, 2.0 * radius);  // back, and the first half of the opening
    if (!thin || thin->empty()) return thin;
    return buffer_shape(*thin, radius);
}

// A closed ring of points at an even step of about half a metre, a multiple of kChunk of them.
Polyline evenly(const Polyline& closed) {
    const double length = length_m(closed);
    const double chunks = std::max(2.0, std::round(length / (kFine_m * kChunk)));
    const auto count = static_cast<std::size_t>(chunks) * kChunk;
    Polyline even = resampled(closed, length / static_cast<double>(count));
    even.resize(count, closed.front());
    return even;
}

// Mean over `half` points to each side, round the ring.
Polyline averaged(const Polyline& ring, std::size_t half) {
    const std::size_t n = ring.size();
    const double width = static_cast<double>(2 * half + 1);
    Point sum;
    for (std::size_t k = 0; k <= 2 * half; ++k) sum = sum + ring[(k + n - half) % n];
    Polyline smooth(n);
    for (std::size_t i = 0; i < n; ++i) {
        smooth[i] = sum * (1.0 / width);
        sum = sum + ring[(i + half + 1) % n] - ring[(i + n - half) % n];
    }
    return smooth;
}

Polyline smoothed(const Polyline& closed, double radius_m) {
    Polyline ring = evenly(closed);
    const double half_m = std::max(2.0, 0.08 * radius_m);
    const std::size_t half =
        std::min(static_cast<std::size_t>(std::lround(half_m / kFine_m)), ring.size() / 2 - 1);
    ring = averaged(averaged(ring, half), half);
    ring.push_back(ring.front());
    return evenly(ring);
}

// Whether the ring may be driven from point i to the next chunk.
bool chunk_is_fine(const FeedableGround& ground, const Polyline& ring, std::size_t i,
                   double radius_m) {
    const std::size_t n = ring.size();
    const Point here = ring[i];
    const Point next = ring[(i + kChunk) % n];
    for (const std::size_t at : {i, i + kChunk / 2}) {
        const Polyline bend{ring[(at + n - kChunk) % n], ring[at % n], ring[(at + kChunk) % n]};
        if (max_curvature_per_m(bend) * radius_m > 1.0) return false;
    }
    return ground.allows_line({here, next});
}

Run run_between(const Polyline& ring, std::size_t from, std::size_t to) {
    Run run;
    for (std::size_t i = from; i <= to; ++i) run.path.push_back(ring[i % ring.size()]);
    run.length_m = std::max(0.0, length_m(run.path) - kRoomTrim_m);
    run.box = box_of(run.path);
    return run;
}

void add_runs(Level& level, const FeedableGround& ground, const Polyline& ring,
              const LineRequest& request, double least_m) {
    std::vector<bool> fine;
    for (std::size_t i = 0; i < ring.size(); i += kChunk)
        fine.push_back(chunk_is_fine(ground, ring, i, request.line_radius_m));
    const std::size_t n = fine.size();
    const auto first_bad = std::find(fine.begin(), fine.end(), false);
    const auto keep = [&](Run run) {
        if (run.length_m >= least_m) level.push_back(std::move(run));
    };
    if (first_bad == fine.end()) {  // a line on a whole ring keeps its ends a spacing apart
        Run run = run_between(ring, 0, ring.size());
        run.length_m -= request.spacing_m;
        keep(std::move(run));
        return;
    }
    const auto start = static_cast<std::size_t>(first_bad - fine.begin());
    for (std::size_t k = 1; k <= n; ++k) {
        std::size_t to = k;
        while (to < n && fine[(start + to) % n]) ++to;
        if (to > k) keep(run_between(ring, (start + k) * kChunk, (start + to) * kChunk));
        k = to;
    }
}

// Rings stand half a spacing apart, or a whole one where many corners make them dear.
int levels_a_spacing(const FeedableGround& ground) {
    return corner_count(ground.region.shape()) > kManyCorners ? 1 : 2;
}

Result<std::vector<Level>> all_levels(const FeedableGround& ground, const LineRequest& request,
                                      double least_m) {
    std::vector<Level> levels;
    const double radius = kRadiusMargin * request.line_radius_m;
    const double step = std::max(request.spacing_m, 1.0) / levels_a_spacing(ground);
    const int count = static_cast<int>((kDeepest_m - kFirst_m) / step) + 1;
    for (int k = 0; k < count; ++k) {
        const double depth = kFirst_m + step * k;
        const auto shrunk = erode(ground.region.shape(), depth);
        if (!shrunk) return fail(shrunk.error());
        if (shrunk->empty()) break;
        const auto round = rounded(*shrunk, radius);
        if (!round) return fail(round.error());
        Level level;
        for (const Polyline& closed : boundary_lines(*round)) {
            if (length_m(closed) < std::max(least_m, 8.0 * kFine_m * kChunk)) continue;
            add_runs(level, ground, smoothed(closed, radius), request, least_m);
        }
        levels.push_back(std::move(level));
    }
    return levels;
}

// A feeding under way on the rings.
struct Block {
    LoadQueue queue;
    Point first;
    int rings = 0;
    std::vector<CandidateLine> lines;
};

CandidateLine line_on(const Run& run, double from_m, const LoadPiece& piece) {
    const Polyline part = part_of(run.path, from_m, from_m + piece.length_m);
    const double steps = std::ceil(piece.length_m / kPathStep_m);
    Polyline path = resampled(part, piece.length_m / steps * (1.0 - 1e-12));
    // Rounding may leave a last vertex right beside the end.
    while (path.size() > static_cast<std::size_t>(steps) + 1) path.erase(path.end() - 2);
    const double length = length_m(path);
    return {std::move(path), true, length, piece.load, piece.bales};
}

// Lays pieces end to end from `from_m` while they fit; every other ring is driven the other way.
void fill(Block& block, const Run& run, double from_m) {
    const bool back = block.rings % 2 == 1;
    ++block.rings;
    while (const auto piece = block.queue.fitting(run.length_m - from_m)) {
        CandidateLine line = line_on(run, from_m, *piece);
        if (back) std::reverse(line.path.begin(), line.path.end());
        block.lines.push_back(std::move(line));
        block.queue.take(*piece);
        from_m += piece->length_m;
    }
}

double box_distance_m(Point p, const Box& box) {
    return distance_m(
        p, {std::clamp(p.x, box.min_x, box.max_x), std::clamp(p.y, box.min_y, box.max_y)});
}

// Goes on at the level's place nearest to the block's first point where the next piece has room.
void fill_beside(Block& block, const Level& level) {
    const Run* best = nullptr;
    double best_from = 0.0;
    double least = std::numeric_limits<double>::infinity();
    for (const Run& run : level) {
        const auto piece = block.queue.fitting(run.length_m);
        if (!piece || box_distance_m(block.first, run.box) >= least) continue;
        const double latest = std::max(0.0, run.length_m - piece->length_m);
        const double from = std::min(nearest_foot(block.first, run.path).along_m, latest);
        const double away = distance_m(block.first, point_at(run.path, from));
        if (away >= least) continue;
        least = away;
        best = &run;
        best_from = from;
    }
    if (best != nullptr) fill(block, *best, best_from);
}

// Whether two curves on different rings keep apart; vertices stand close enough to tell.
bool are_apart(const Polyline& a, const Polyline& b, double least_m) {
    if (!box_of(a).grown_by(least_m).meets(box_of(b))) return true;
    const auto is_far = [least_m](const Polyline& line) {
        return [&line, least_m](Point p) { return distance_m(p, line) >= least_m; };
    };
    return std::all_of(a.begin(), a.end(), is_far(b)) && std::all_of(b.begin(), b.end(), is_far(a));
}

// Lines of one ring only touch; those of different rings must not come too near each other.
bool keeps_spacing(const std::vector<CandidateLine>& lines, double spacing_m) {
    for (std::size_t i = 0; i < lines.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const bool touching = distance_m(lines[i].path.front(), lines[j].path.back()) < 0.1 ||
                                  distance_m(lines[j].path.front(), lines[i].path.back()) < 0.1;
            if (touching) continue;
            if (!are_apart(lines[i].path, lines[j].path, kLeastApart * spacing_m)) return false;
        }
    }
    return true;
}

// A level among the others, and how many levels on the one a spacing away is.
struct Place {
    const std::vector<Level>& levels;
    std::size_t number = 0;
    std::size_t beside = 2;
};

std::optional<Candidate> feeding(const Place& place, const Run& run, double from_m,
                                 const LoadQueue& queue, const LineRequest& request) {
    const auto& [levels, number, beside] = place;
    Block block{queue, point_at(run.path, from_m), 0, {}};
    fill(block, run, from_m);
    for (std::size_t k = number + beside; k < levels.size() && !block.queue.done(); k += beside)
        fill_beside(block, levels[k]);
    for (std::size_t k = number; k >= beside && !block.queue.done(); k -= beside)
        fill_beside(block, levels[k - beside]);
    if (!block.queue.done() || !keeps_spacing(block.lines, request.spacing_m)) return std::nullopt;
    return in_driving_order(std::move(block.lines), request);
}

}  // namespace

Result<std::vector<Candidate>> boundary_candidates(const FeedableGround& ground,
                                                   const LineRequest& request, int wanted) {
    std::vector<Candidate> found;
    if (ground.region.empty() || request.loads.empty() || wanted < 1) return found;
    double least = std::numeric_limits<double>::infinity();
    for (const LineRequest::Load& load : request.loads)
        least = std::min(least, load.length_m / load.bales);
    const auto levels = all_levels(ground, request, least);
    if (!levels) return fail(levels.error());
    double longest = 0.0;
    double total = 0.0;
    for (const Level& level : *levels) {
        for (const Run& run : level) {
            longest = std::max(longest, run.length_m);
            total += run.length_m;
        }
    }
    const auto beside = static_cast<std::size_t>(levels_a_spacing(ground));
    const LoadQueue queue(request.loads, longest);
    const auto first = queue.fitting(longest);
    if (!first) return found;
    const double step = std::max(first->length_m / 4.0, total / (1.5 * wanted));
    for (std::size_t k = 0; k < levels->size(); ++k) {
        for (const Run& run : (*levels)[k]) {
            const auto piece = queue.fitting(run.length_m);
            if (!piece) continue;
            const double slack = std::max(0.0, run.length_m - piece->length_m);
            const int count = static_cast<int>(std::ceil(slack / step));
            for (int i = 0; i <= count; ++i) {
                const double from = count > 0 ? slack * i / count : 0.0;
                auto one = feeding({*levels, k, beside}, run, from, queue, request);
                if (one) found.push_back(std::move(*one));
            }
        }
    }
    return found;
}

}  // namespace haylane
