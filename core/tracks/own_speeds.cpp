#include "core/tracks/own_speeds.h"

#include <algorithm>
#include <optional>

namespace haylane {

namespace {

constexpr double kOnTrail_m = 15.0;  // as trail_snap_m
constexpr double kMoving_m_per_s = 0.5;

std::optional<Surface> surface_at(const Ranch& ranch, Point p) {
    double nearest = kOnTrail_m;
    std::optional<Surface> out;
    for (const Trail& trail : ranch.trails) {
        for (const Polyline& line : trail.path) {
            if (line.empty() || !box_of(line).grown_by(kOnTrail_m).contains(p)) continue;
            const double away = distance_m(p, line);
            if (away > nearest) continue;
            nearest = away;
            out = trail.surface;
        }
    }
    return out;
}

// By stretches of kStep_m, each at the speed it was driven at: a way over several surfaces shows
// each of them as it is.
void add_driving(const Ranch& ranch, const Piece& piece, TrackFigures& out) {
    constexpr double kStep_m = 20.0;
    Driven step;
    std::size_t from = 0;
    for (std::size_t i = 1; i < piece.path.size(); ++i) {
        step.length_m += distance_m(piece.path[i - 1], piece.path[i]);
        step.time_s += piece.times_s[i] - piece.times_s[i - 1];
        if (step.length_m < kStep_m && i + 1 < piece.path.size()) continue;
        const auto surface = surface_at(ranch, lerp(piece.path[from], piece.path[i], 0.5));
        if (surface && step.m_per_s() >= kMoving_m_per_s) {
            Driven& driven = out.hauling[static_cast<std::size_t>(*surface)];
            driven.length_m += step.length_m;
            driven.time_s += step.time_s;
        }
        step = {};
        from = i;
    }
}

void add(const Driven& one, DrivenSum& sum) {
    if (one.length_m <= 0.0) return;
    sum.all.length_m += one.length_m;
    sum.all.time_s += one.time_s;
    ++sum.tracks;
}

}  // namespace

TrackFigures track_figures(const Ranch& ranch, const CutTrack& cut) {
    TrackFigures out;
    out.laying = {cut.length_m(Motion::laying), cut.time_s(Motion::laying)};
    for (const Piece& piece : cut.pieces)
        if (piece.motion == Motion::hauling || piece.motion == Motion::returning)
            add_driving(ranch, piece, out);
    return out;
}

FiguresSum sum_of(std::span<const TrackFigures> tracks) {
    FiguresSum sum;
    for (const TrackFigures& one : tracks) {
        ++sum.tracks;
        add(one.laying, sum.laying);
        for (std::size_t s = 0; s < sum.hauling.size(); ++s) add(one.hauling[s], sum.hauling[s]);
    }
    return sum;
}

void fill_own_speeds(std::span<const TrackFigures> tracks, sys_days newest, Rig& rig,
                     const OwnSpeedRules& rules) {
    if (static_cast<int>(tracks.size()) < rules.least_tracks) return;
    const FiguresSum sum = sum_of(tracks);
    rig.own.tracks = sum.tracks;
    rig.own.newest = std::max(rig.own.newest.value_or(newest), newest);
    if (sum.laying.all.time_s >= rules.least_laying_s)
        rig.own.feed_m_per_s = sum.laying.all.m_per_s();
    for (std::size_t s = 0; s < sum.hauling.size(); ++s)
        if (sum.hauling[s].all.length_m >= rules.least_haul_m)
            rig.own.haul_m_per_s[s] = sum.hauling[s].all.m_per_s();
}

}  // namespace haylane
