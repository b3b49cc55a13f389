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

void add_driving(const Ranch& ranch, const Piece& piece, TrackFigures& out) {
    if (piece.path.size() < 2 || piece.length_m <= 0.0) return;
    const double speed = piece.length_m / piece.time_s();
    if (speed < kMoving_m_per_s) return;
    constexpr double kStep_m = 20.0;
    const Polyline line = resampled(piece.path, kStep_m);
    for (std::size_t i = 1; i < line.size(); ++i) {
        const auto surface = surface_at(ranch, lerp(line[i - 1], line[i], 0.5));
        if (!surface) continue;
        Driven& driven = out.hauling[static_cast<std::size_t>(*surface)];
        const double length = distance_m(line[i - 1], line[i]);
        driven.length_m += length;
        driven.time_s += length / speed;
    }
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

void fill_own_speeds(std::span<const TrackFigures> tracks, sys_days newest, Rig& rig,
                     const OwnSpeedRules& rules) {
    if (static_cast<int>(tracks.size()) < rules.least_tracks) return;
    TrackFigures sum;
    for (const TrackFigures& one : tracks) {
        sum.laying.length_m += one.laying.length_m;
        sum.laying.time_s += one.laying.time_s;
        for (std::size_t s = 0; s < sum.hauling.size(); ++s) {
            sum.hauling[s].length_m += one.hauling[s].length_m;
            sum.hauling[s].time_s += one.hauling[s].time_s;
        }
    }
    rig.own.tracks = static_cast<int>(tracks.size());
    rig.own.newest = std::max(rig.own.newest.value_or(newest), newest);
    if (sum.laying.time_s >= rules.least_laying_s)
        rig.own.feed_m_per_s = sum.laying.length_m / sum.laying.time_s;
    for (std::size_t s = 0; s < sum.hauling.size(); ++s)
        if (sum.hauling[s].length_m >= rules.least_haul_m)
            rig.own.haul_m_per_s[s] = sum.hauling[s].length_m / sum.hauling[s].time_s;
}

}  // namespace haylane
