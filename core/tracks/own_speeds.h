#pragma once
// How fast a rig was really driven, by the tracks that were accepted: laying, and hauling by the
// surface of the trail it was on.

#include "core/ranch/ranch.h"
#include "core/tracks/cut_track.h"

#include <array>
#include <span>

namespace haylane {

struct Driven {
    double length_m = 0.0;
    double time_s = 0.0;
    // 0 when no time was driven.
    [[nodiscard]] double m_per_s() const { return time_s > 0.0 ? length_m / time_s : 0.0; }
};

// What one track shows.
struct TrackFigures {
    Driven laying;
    std::array<Driven, 4> hauling;  // hauling and returning, by Surface; standing not counted
};

// Hauling counts to the trail within 15 m whose surface is known; elsewhere to none.
[[nodiscard]] TrackFigures track_figures(const Ranch& ranch, const CutTrack& cut);

// What several tracks show together, and how many of them show it.
struct DrivenSum {
    Driven all;
    int tracks = 0;
};
struct FiguresSum {
    int tracks = 0;
    DrivenSum laying;
    std::array<DrivenSum, 4> hauling;  // by Surface
};
[[nodiscard]] FiguresSum sum_of(std::span<const TrackFigures> tracks);

// Puts the speeds that enough tracks of a rig show into its own figures: `least_tracks` or more,
// with 10 minutes of laying in all, and 1 km on a surface. What is not shown stays absent.
struct OwnSpeedRules {
    int least_tracks = 3;  // assumption, as for trials
    double least_laying_s = 600.0;
    double least_haul_m = 1000.0;
};
void fill_own_speeds(std::span<const TrackFigures> tracks, sys_days newest, Rig& rig,
                     const OwnSpeedRules& rules = {});

}  // namespace haylane
