// All six Dubins words are tried, the shortest first. Which ground hay lies on does not depend on
// the direction it was laid in, so the best directions follow line by line (dynamic programming:
// two states a line, Bellman 1957).
#include "core/lines/joins.h"

#include "core/base/require.h"
#include "core/base/units.h"
#include "core/geometry/turn_path.h"
#include "core/lines/discharge.h"
#include "core/lines/drivable.h"
#include "core/lines/loads.h"
#include "core/lines/turn_room.h"

#include <algorithm>
#include <array>
#include <limits>
#include <span>
#include <utility>

namespace haylane {

namespace {

constexpr double kStep_m = 1.0;
constexpr double kSamePlace_m = 0.01;
constexpr double kRounding = 1e-6;

using Lines = std::span<const CandidateLine>;

// Mathematical angle from a to b.
double angle_rad(Point a, Point b) { return units::kPi / 2.0 - azimuth_rad(a, b); }

// Whether b goes on where a ends, turning there no more than the rig can.
bool goes_on(const Polyline& a, const Polyline& b, double radius_m) {
    if (distance_m(a.back(), b.front()) > kSamePlace_m) return false;
    const Polyline bend{a[a.size() - 2], a.back(), b[1]};
    return max_curvature_per_m(bend) * radius_m <= 1.0 + kRounding;
}

// The shortest way from the end of `from` to the start of `to` that may be driven. `Hay` is any
// that crosses_hay takes.
template <class Hay>
std::optional<Polyline> way_between(const Polyline& from, const Polyline& to, const Hay& laid,
                                    double radius_m, const Region& drivable) {
    if (goes_on(from, to, radius_m)) return Polyline{from.back()};
    const Pose end{from.back(), angle_rad(from[from.size() - 2], from.back())};
    const Pose start{to.front(), angle_rad(to[0], to[1])};
    std::vector<TurnPath> paths;
    for (const TurnWord word : {TurnWord::straight, TurnWord::lsl, TurnWord::rsr, TurnWord::lsr,
                                TurnWord::rsl, TurnWord::rlr, TurnWord::lrl})
        if (const auto path = turn_path(word, end, start, radius_m)) paths.push_back(*path);
    std::stable_sort(paths.begin(), paths.end(),
                     [](const TurnPath& a, const TurnPath& b) { return a.length_m < b.length_m; });
    for (const TurnPath& path : paths) {
        Polyline way = drive(path, end, radius_m, kStep_m);
        if (drivable.covers(way) && !crosses_hay(way, laid)) return way;
    }
    return std::nullopt;
}

bool begins_load(Lines lines, std::size_t i) {
    return i == 0 || lines[i].load != lines[i - 1].load;
}

bool has_joins(Lines lines) {
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (!begins_load(lines, i)) return true;
    return false;
}

CandidateLine turned(CandidateLine line) {
    line.path = reversed(std::move(line.path));
    return line;
}

// The best way to have laid all lines up to one, that one driven as given or turned round.
struct Best {
    int into_wind = 0;  // lines that throw hay into the wind
    double joins_m = std::numeric_limits<double>::infinity();
    std::size_t before = 0;  // the line before: 0 as given, 1 turned round
    [[nodiscard]] bool can_be_driven() const {
        return joins_m < std::numeric_limits<double>::infinity();
    }
};

bool is_better(const Best& a, const Best& b) {
    if (!a.can_be_driven() || !b.can_be_driven()) return a.can_be_driven();
    return a.into_wind != b.into_wind ? a.into_wind < b.into_wind : a.joins_m < b.joins_m;
}

using Layer = std::array<Best, 2>;
using Ways = std::array<CandidateLine, 2>;  // as given, turned round

Ways ways_of(const CandidateLine& line) { return {line, turned(line)}; }

// What may be driven on between lines, and how tightly.
struct Turning {
    double radius_m = 0.0;
    const Region& drivable;
};

// The line before, driven one of the two ways.
struct Last {
    Polyline path;
    double joins_m = 0.0;  // of all lines up to it
};

// All joins when `now` follows `last`; nullopt when no way leads there, or none shorter than
// `least_m`.
std::optional<double> joins_after(const Last& last, const Polyline& now, Lines laid,
                                  const Turning& turning, double least_m) {
    if (last.joins_m + distance_m(last.path.back(), now.front()) >= least_m) return std::nullopt;
    // NOLINTNEXTLINE(clang-analyzer-core.NonNullParamChecker): `joined` requires the ground.
    const auto way = way_between(last.path, now, laid, turning.radius_m, turning.drivable);
    if (!way) return std::nullopt;
    return last.joins_m + length_m(*way);
}

bool is_free_to_start(const CandidateLine& line, bool begins, Lines laid,
                      const LineRequest& request) {
    return begins ? may_start(line, laid, request)
                  : start_is_clear(line.path.front(), request.gates, request.gate_keep_m);
}

// `lines` up to and with the one to be laid.
Layer next_layer(const Layer& before, Lines lines, const LineRequest& request,
                 const Turning& turning) {
    const std::size_t i = lines.size() - 1;
    const Lines laid = lines.first(i);
    const Ways now = ways_of(lines[i]);
    const bool begins = begins_load(lines, i);
    Layer layer;
    for (std::size_t d = 0; d < 2; ++d) {
        if (!is_free_to_start(now[d], begins, laid, request)) continue;
        const int own = throws_into_wind(now[d].path, request) ? 1 : 0;
        if (i == 0) {
            layer[d] = {own, 0.0, 0};
            continue;
        }
        const Ways ways = ways_of(lines[i - 1]);
        for (std::size_t b = 0; b < 2; ++b) {
            const int into_wind = before[b].into_wind + own;
            const bool fewer = into_wind < layer[d].into_wind;
            const double least_m =
                fewer ? std::numeric_limits<double>::infinity() : layer[d].joins_m;
            const Last last{ways[b].path, before[b].joins_m};
            const auto all_m = begins ? std::optional(last.joins_m)
                                      : joins_after(last, now[d].path, laid, turning, least_m);
            const Best way{into_wind, all_m.value_or(std::numeric_limits<double>::infinity()), b};
            if (is_better(way, layer[d])) layer[d] = way;
        }
    }
    return layer;
}

// Whether the rig can turn away wherever no other line goes on.
bool has_room_at_ends(Lines lines, double radius_m, const Region& drivable) {
    const auto others_meet = [&](std::size_t own, Point end) {
        for (std::size_t i = 0; i < lines.size(); ++i)
            if (i != own && (distance_m(lines[i].path.front(), end) <= kSamePlace_m ||
                             distance_m(lines[i].path.back(), end) <= kSamePlace_m))
                return true;
        return false;
    };
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Polyline& path = lines[i].path;
        if (!others_meet(i, path.back()) && !has_room_to_turn(path, radius_m, drivable))
            return false;
        if (!others_meet(i, path.front()) && !has_room_to_turn(reversed(path), radius_m, drivable))
            return false;
    }
    return true;
}

}  // namespace

std::optional<Polyline> join(const Polyline& from, const Polyline& to, const MultiPolyline& hay,
                             double turn_radius_m, const Region& drivable) {
    require(turn_radius_m > 0.0, "a turning radius must be above 0");
    return way_between(from, to, hay, turn_radius_m, drivable);
}

std::optional<Candidate> joined(const Candidate& candidate, const LineRequest& request) {
    const Lines lines(candidate.lines);
    if (request.turn_radius_m <= 0.0 || request.drivable == nullptr) return candidate;
    if (!has_room_at_ends(lines, request.turn_radius_m, *request.drivable)) return std::nullopt;
    if (!has_joins(lines)) return candidate;
    const Turning turning{request.turn_radius_m, *request.drivable};
    std::vector<Layer> layers;
    layers.reserve(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i)
        layers.push_back(
            next_layer(i == 0 ? Layer{} : layers.back(), lines.first(i + 1), request, turning));
    Candidate driven = candidate;
    std::size_t d = is_better(layers.back()[1], layers.back()[0]) ? 1 : 0;
    if (!layers.back()[d].can_be_driven()) return std::nullopt;
    driven.joins_m = layers.back()[d].joins_m;
    for (std::size_t i = lines.size(); i-- > 0;) {
        if (d == 1) driven.lines[i] = turned(std::move(driven.lines[i]));
        d = layers[i][d].before;
    }
    return driven;
}

}  // namespace haylane
