// Curves are resampled at half a metre and passed twice through a moving average, which spreads the
// turn at a kink over the width of the average, then judged two metres at a time. A feeding starts
// somewhere on a run and goes on at the next level's place nearest to that start where the next
// piece has room and keeps the spacing from all lines laid so far.
#include "core/lines/curve_runs.h"

#include "core/base/parallel.h"
#include "core/lines/loads.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <optional>
#include <utility>

namespace haylane {

namespace {

constexpr double kFine_m = 0.5;    // step while rounding
constexpr std::size_t kChunk = 4;  // fine steps judged together
constexpr double kPathStep_m = 1.9;
constexpr double kRoomTrim_m = 0.01;
constexpr double kLeastApart = 0.95;  // of the spacing, between lines on different levels

// Points at an even step of about half a metre, a multiple of kChunk steps.
struct Curve {
    Polyline points;  // a ring's first point is not repeated
    bool closed = false;
};

Curve evenly(const Polyline& line, bool closed) {
    const double length = length_m(line);
    const double chunks = std::max(2.0, std::round(length / (kFine_m * kChunk)));
    const auto count = static_cast<std::size_t>(chunks) * kChunk;
    Polyline even = resampled(line, length / static_cast<double>(count));
    even.resize(closed ? count : count + 1, line.back());
    return {std::move(even), closed};
}

// Mean over `half` points to each side, fewer near the ends.
Polyline averaged(const Polyline& line, std::size_t half) {
    const std::size_t n = line.size();
    Polyline sums{{0.0, 0.0}};
    for (const Point p : line) sums.push_back(sums.back() + (p - line.front()));
    Polyline smooth(n);
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t reach = std::min({half, i, n - 1 - i});
        const Point sum = sums[i + reach + 1] - sums[i - reach];
        smooth[i] = line.front() + sum * (1.0 / static_cast<double>(2 * reach + 1));
    }
    return smooth;
}

Polyline averaged(const Curve& curve, std::size_t half) {
    if (!curve.closed) return averaged(averaged(curve.points, half), half);
    const Polyline& ring = curve.points;
    const auto reach = static_cast<std::ptrdiff_t>(2 * half);  // of both passes
    Polyline around(ring.end() - reach, ring.end());
    around.insert(around.end(), ring.begin(), ring.end());
    around.insert(around.end(), ring.begin(), ring.begin() + reach);
    around = averaged(averaged(around, half), half);
    Polyline smooth(around.begin() + reach, around.end() - reach);
    smooth.push_back(smooth.front());
    return smooth;
}

Curve rounded(const Polyline& traced, double rounding_m) {
    const bool closed = traced.front() == traced.back();
    const Curve curve = evenly(traced, closed);
    const std::size_t half = std::min(static_cast<std::size_t>(std::lround(rounding_m / kFine_m)),
                                      curve.points.size() / 2 - 1);
    return evenly(averaged(curve, half), closed);
}

// Whether the curve may be driven from point i to the next chunk.
bool chunk_is_fine(const FeedableGround& ground, const Curve& curve, std::size_t i,
                   double radius_m) {
    const Polyline& points = curve.points;
    const std::size_t n = points.size();
    // Beyond an open end there is nothing to turn to.
    const auto ahead = [&](std::size_t k) {
        return points[curve.closed ? k % n : std::min(k, n - 1)];
    };
    const auto behind = [&](std::size_t k) {
        return points[curve.closed ? (k + n - kChunk) % n : std::max(k, kChunk) - kChunk];
    };
    for (const std::size_t at : {i, i + kChunk / 2}) {
        const Polyline bend{behind(at), ahead(at), ahead(at + kChunk)};
        if (max_curvature_per_m(bend) * radius_m > 1.0) return false;
    }
    return ground.allows_line({ahead(i), ahead(i + kChunk)});
}

Run run_between(const Polyline& points, std::size_t from, std::size_t to, std::size_t period) {
    Run run;
    for (std::size_t i = from; i <= to; ++i) run.path.push_back(points[i % period]);
    run.along_m.push_back(0.0);
    for (std::size_t i = 1; i < run.path.size(); ++i)
        run.along_m.push_back(run.along_m.back() + distance_m(run.path[i - 1], run.path[i]));
    run.length_m = std::max(0.0, run.along_m.back() - kRoomTrim_m);
    run.box = box_of(run.path);
    return run;
}

// Number of the run's point that ends the piece at a distance from its start.
std::size_t piece_end(const Run& run, double at_m) {
    const auto next = std::upper_bound(run.along_m.begin() + 1, run.along_m.end() - 1, at_m);
    return static_cast<std::size_t>(next - run.along_m.begin());
}

Point place_on(const Run& run, double at_m) {
    const std::size_t end = piece_end(run, at_m);
    const double length = run.along_m[end] - run.along_m[end - 1];
    const double share = length > 0.0 ? (at_m - run.along_m[end - 1]) / length : 0.0;
    return lerp(run.path[end - 1], run.path[end], std::clamp(share, 0.0, 1.0));
}

Polyline part_of(const Run& run, double from_m, double to_m) {
    Polyline part{place_on(run, from_m)};
    for (std::size_t i = piece_end(run, from_m); run.along_m[i] < to_m && i + 1 < run.path.size();
         ++i) {
        if (run.path[i] != part.back()) part.push_back(run.path[i]);
    }
    const Point end = place_on(run, to_m);
    if (end != part.back()) part.push_back(end);
    return part;
}

Level runs_along_one(const FeedableGround& ground, const Polyline& traced, const RunRules& rules) {
    Level level;
    const double length = length_m(traced);
    if (length < 8.0 * kFine_m * kChunk) return level;
    const Curve curve = rounded(traced, rules.rounding_m);
    std::vector<bool> fine;
    for (std::size_t i = 0; i + (curve.closed ? 0 : 1) < curve.points.size(); i += kChunk)
        fine.push_back(chunk_is_fine(ground, curve, i, rules.line_radius_m));
    if (!curve.closed) fine.push_back(false);  // from the last point back to the first
    const std::size_t n = fine.size();
    const std::size_t period = n * kChunk;
    const auto first_bad = std::find(fine.begin(), fine.end(), false);
    if (first_bad == fine.end()) {  // a line on a whole ring keeps its ends a spacing apart
        Run run = run_between(curve.points, 0, period, period);
        run.length_m = std::max(0.0, run.length_m - rules.spacing_m);
        level.push_back(std::move(run));
        return level;
    }
    const auto start = static_cast<std::size_t>(first_bad - fine.begin());
    for (std::size_t k = 1; k <= n; ++k) {
        std::size_t to = k;
        while (to < n && fine[(start + to) % n]) ++to;
        if (to > k)
            level.push_back(
                run_between(curve.points, (start + k) * kChunk, (start + to) * kChunk, period));
        k = to;
    }
    return level;
}

// A feeding under way.
struct Block {
    LoadQueue queue;
    Point first;
    int levels = 0;
    std::vector<CandidateLine> lines;
};

Polyline with_even_vertices(const Polyline& part, double length) {
    const double steps = std::ceil(length / kPathStep_m);
    Polyline path = resampled(part, length / steps * (1.0 - 1e-12));
    // Rounding may leave a last vertex right beside the end.
    while (path.size() > static_cast<std::size_t>(steps) + 1) path.erase(path.end() - 2);
    return path;
}

CandidateLine line_on(const Run& run, double from_m, const LoadPiece& piece) {
    Polyline path =
        with_even_vertices(part_of(run, from_m, from_m + piece.length_m), piece.length_m);
    const double length = length_m(path);
    return {std::move(path), true, length, piece.load, piece.bales};
}

// Lays pieces end to end from `from_m` while they fit; every other level is driven the other way.
void fill(Block& block, const Run& run, double from_m) {
    const bool back = block.levels % 2 == 1;
    ++block.levels;
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
        const double away = distance_m(block.first, place_on(run, from));
        if (away >= least) continue;
        least = away;
        best = &run;
        best_from = from;
    }
    if (best != nullptr) fill(block, *best, best_from);
}

// Whether two curves on different levels keep apart.
bool are_apart(const Polyline& a, const Polyline& b, double least_m) {
    return distance_m(a, b, least_m, least_m) >= least_m;
}

// Whether lines from number `first` on keep apart from those before them and from each other,
// except where they follow each other end to end.
bool keeps_spacing(const std::vector<CandidateLine>& lines, std::size_t first, double spacing_m) {
    for (std::size_t i = first; i < lines.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const bool touching = distance_m(lines[i].path.front(), lines[j].path.back()) < 0.1 ||
                                  distance_m(lines[j].path.front(), lines[i].path.back()) < 0.1;
            if (touching) continue;
            if (!are_apart(lines[i].path, lines[j].path, kLeastApart * spacing_m)) return false;
        }
    }
    return true;
}

// False, with nothing changed, where nothing fits a spacing from the lines laid so far.
bool laid_on(Block& block, const Level& level, double spacing_m) {
    Block tried = block;
    fill_beside(tried, level);
    const std::size_t before = block.lines.size();
    if (tried.lines.size() == before) return false;
    if (!keeps_spacing(tried.lines, before, spacing_m)) return false;
    block = std::move(tried);
    return true;
}

// A place on a run to start from.
struct Start {
    std::size_t level = 0;
    const Run* run = nullptr;
    double from_m = 0.0;
};

// The shortest line the request can be cut into: one bale of some load.
double least_line_m(const LineRequest& request) {
    double least = std::numeric_limits<double>::infinity();
    for (const LineRequest::Load& load : request.loads)
        least = std::min(least, load.length_m / load.bales);
    return least;
}

// The runs that can hold some line.
struct Room {
    double longest_m = 0.0;
    double total_m = 0.0;
    std::size_t runs = 0;
};

Room room_on(const CurveFamily& curves, double least_m) {
    Room room;
    for (const Level& level : curves.levels) {
        for (const Run& run : level) {
            if (run.length_m < least_m) continue;
            room.longest_m = std::max(room.longest_m, run.length_m);
            room.total_m += run.length_m;
            ++room.runs;
        }
    }
    return room;
}

std::vector<Start> starts_on(const CurveFamily& curves, const LoadQueue& queue, const Room& room,
                             int wanted) {
    std::vector<Start> starts;
    const auto first = queue.fitting(room.longest_m);
    if (!first) return starts;
    const double step = std::max(first->length_m / 4.0, room.total_m / (1.5 * wanted));
    const std::size_t stride =
        std::max<std::size_t>(1, room.runs / static_cast<std::size_t>(wanted));
    std::size_t number = 0;
    for (std::size_t k = 0; k < curves.levels.size(); ++k) {
        for (const Run& run : curves.levels[k]) {
            const auto piece = queue.fitting(run.length_m);
            if (!piece || number++ % stride != 0) continue;
            const double slack = std::max(0.0, run.length_m - piece->length_m);
            const int count = static_cast<int>(std::ceil(slack / step));
            for (int i = 0; i <= count; ++i)
                starts.push_back({k, &run, count > 0 ? slack * i / count : 0.0});
        }
    }
    return starts;
}

std::optional<Candidate> feeding(const CurveFamily& curves, const Start& start,
                                 const LoadQueue& queue, const LineRequest& request) {
    Block block{queue, place_on(*start.run, start.from_m), 0, {}};
    fill(block, *start.run, start.from_m);
    if (!keeps_spacing(block.lines, 0, request.spacing_m)) return std::nullopt;
    const auto count = static_cast<std::ptrdiff_t>(curves.levels.size());
    const auto beside = static_cast<std::ptrdiff_t>(curves.levels_a_spacing);
    for (const std::ptrdiff_t side : {1, -1}) {
        auto k = static_cast<std::ptrdiff_t>(start.level) + side * beside;
        while (k >= 0 && k < count && !block.queue.done()) {
            const Level& level = curves.levels[static_cast<std::size_t>(k)];
            const bool laid = laid_on(block, level, request.spacing_m);
            k += laid ? side * beside : side;
        }
    }
    if (!block.queue.done()) return std::nullopt;
    auto candidate = in_driving_order(std::move(block.lines), request);
    if (candidate) candidate->family = curves.family;
    return candidate;
}

}  // namespace

Level runs_along(const FeedableGround& ground, const MultiPolyline& traced, const RunRules& rules) {
    Level all;
    for (const Polyline& curve : traced) {
        Level runs = runs_along_one(ground, curve, rules);
        std::move(runs.begin(), runs.end(), std::back_inserter(all));
    }
    return all;
}

Polyline smoothed(const Polyline& line, double rounding_m) {
    if (length_m(line) < 2.0 * kFine_m * kChunk) return line;
    Curve curve = rounded(line, rounding_m);
    if (curve.closed) curve.points.push_back(curve.points.front());
    return with_even_vertices(curve.points, length_m(curve.points));
}

std::vector<Candidate> candidates_on(const CurveFamily& curves, const LineRequest& request,
                                     int wanted) {
    if (wanted < 1) return {};
    const Room room = room_on(curves, least_line_m(request));
    const LoadQueue queue(request.loads, room.longest_m);
    const std::vector<Start> starts = starts_on(curves, queue, room, wanted);
    std::vector<std::vector<Candidate>> found(starts.size());  // one or none from each
    parallel_for(starts.size(), request.threads, [&](std::size_t s) {
        if (auto one = feeding(curves, starts[s], queue, request))
            found[s].push_back(std::move(*one));
    });
    std::vector<Candidate> all;
    for (std::vector<Candidate>& one : found)
        std::move(one.begin(), one.end(), std::back_inserter(all));
    return all;
}

}  // namespace haylane
