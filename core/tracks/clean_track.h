#pragma once
// Takes out of a recorded track what cannot have been driven: repeated points, points without a
// time, times that go back, and spikes. Everything taken out is listed with its reason. A gap is
// noted and kept; a long gap, a clock set back, or a jump that lasts begins a new part.
// Linear in the points.

#include "core/tracks/track.h"

#include <array>
#include <span>
#include <string_view>
#include <vector>

namespace haylane {

enum class DropReason { no_time, not_finite, repeated, backward_time, spike };
inline constexpr std::size_t kDropReasons = 5;
// "no time", "no place", "repeated", "time goes back", "jump".
[[nodiscard]] std::string_view to_string(DropReason reason);

struct CleanOptions {
    double most_m_per_s = 36.0;  // 80 mph: a hay rig or a pickup never; assumption
    double most_m_per_s2 = 4.0;  // hard braking on dry ground, common practice, no source
    double noise_m = 15.0;       // a fix may always be off by so much: 5 x 3 m; assumption
    double gap_s = 30.0;         // a longer silence is a gap
    double part_s = 600.0;       // a longer one begins a new part; assumption
    double clock_back_s = 60.0;  // a clock set back by more begins a new part; assumption
    std::size_t reacquire = 3;   // so many fixes that agree after a jump begin a new part
};

struct DroppedPoint {
    std::size_t point = 0;  // index into the track
    DropReason reason = DropReason::spike;
};

struct TrackGap {
    std::size_t after = 0;  // index into fixes of the last fix before it
    double time_s = 0.0;
};

struct CleanTrack {
    std::vector<Fix> fixes;
    std::vector<std::size_t> parts;  // index of each part's first fix; the first is 0
    std::vector<DroppedPoint> dropped;
    std::array<std::size_t, kDropReasons> counts{};  // by DropReason
    std::vector<TrackGap> gaps;                      // within a part
    [[nodiscard]] std::size_t count(DropReason reason) const {
        return counts[static_cast<std::size_t>(reason)];
    }
    // The fixes of part `i`.
    [[nodiscard]] std::span<const Fix> part(std::size_t i) const;
};

[[nodiscard]] CleanTrack clean_track(std::span<const TrackPoint> points,
                                     const CleanOptions& options = {});

}  // namespace haylane
