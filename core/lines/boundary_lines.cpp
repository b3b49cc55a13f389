// Rings are the boundary of the ground shrunk by 0.5 m and every half spacing more, closed and then
// opened by a disk a tenth larger than the least radius (Serra 1982, Image Analysis and
// Mathematical Morphology): closing rounds corners that stick into the ground, opening those of the
// ground. Buffers give chords, whose kinks a moving average as wide as two chords takes out, which
// brings curvature back under the limit at the cost of at most 0.2 m sideways. A boundary of very
// many corners (hundreds of round setbacks) is not rounded, since the buffers would take too long:
// lines then end at its corners.
#include "core/lines/boundary_lines.h"

#include "core/base/parallel.h"
#include "core/geometry/boolean_ops.h"

#include <algorithm>
#include <utility>

namespace haylane {

namespace {

constexpr double kFirst_m = 0.5;     // first ring inside the ground
constexpr double kDeepest_m = 60.0;  // last ring
constexpr std::size_t kManyCorners = 1500;
constexpr double kRadiusMargin = 1.1;
constexpr double kChordRatio = 0.08;  // a buffer's chords, in radii, about

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

// Rings stand half a spacing apart, or a whole one where many corners make them dear.
int levels_a_spacing(const FeedableGround& ground) {
    return corner_count(ground.region.shape()) > kManyCorners ? 1 : 2;
}

// The ring so far inside the boundary, in runs.
Result<Level> ring_at(const FeedableGround& ground, double inside_m, const RunRules& rules,
                      double radius_m) {
    const auto shrunk = erode(ground.region.shape(), inside_m);
    if (!shrunk) return fail(shrunk.error());
    if (shrunk->empty()) return Level{};
    const auto round = rounded(*shrunk, radius_m);
    if (!round) return fail(round.error());
    return runs_along(ground, boundary_lines(*round), rules);
}

}  // namespace

Result<CurveFamily> boundary_curves(const FeedableGround& ground, double line_radius_m,
                                    double spacing_m, int threads) {
    CurveFamily rings{LineFamily::boundary, {}, levels_a_spacing(ground)};
    if (ground.region.empty()) return rings;
    const double radius = kRadiusMargin * line_radius_m;
    const RunRules rules{line_radius_m, std::max(2.0, kChordRatio * radius), spacing_m};
    const double step = std::max(spacing_m, 1.0) / rings.levels_a_spacing;
    const int count = static_cast<int>((kDeepest_m - kFirst_m) / step) + 1;
    std::vector<Result<Level>> made(static_cast<std::size_t>(count));
    parallel_for(made.size(), threads, [&](std::size_t k) {
        made[k] = ring_at(ground, kFirst_m + step * static_cast<double>(k), rules, radius);
    });
    for (Result<Level>& level : made) {
        if (!level) return fail(level.error());
        rings.levels.push_back(std::move(*level));
    }
    return rings;
}

}  // namespace haylane
