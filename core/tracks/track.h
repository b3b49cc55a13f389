#pragma once
// What a receiver recorded of a drive, and what the drive was cut into. Ranch frame, metres; times
// are seconds since 1970-01-01 UTC.

#include "core/geometry/polyline.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace haylane {

struct TrackPoint {
    Point at;
    std::optional<double> time_s;
    std::optional<double> elevation_m;
};

// A fix that was kept: always with a time, times strictly rising within a part.
struct Fix {
    Point at;
    double time_s = 0.0;
    std::size_t point = 0;  // index of the TrackPoint it came from
};

// A fix after smoothing.
struct SmoothFix {
    Point at;
    Point velocity_m_per_s;
    double time_s = 0.0;
    std::size_t point = 0;
    [[nodiscard]] double speed_m_per_s() const { return norm_m(velocity_m_per_s); }
};

enum class Motion { stopped, loading, hauling, laying, returning };
// All of them, in the order of a trip.
inline constexpr std::array kMotions{Motion::loading, Motion::hauling, Motion::laying,
                                     Motion::returning, Motion::stopped};

// "stopped", "loading", "hauling", "laying", "returning".
[[nodiscard]] constexpr std::string_view to_string(Motion motion) {
    switch (motion) {
        case Motion::stopped:
            return "stopped";
        case Motion::loading:
            return "loading";
        case Motion::hauling:
            return "hauling";
        case Motion::laying:
            return "laying";
        case Motion::returning:
            return "returning";
    }
    return "stopped";
}

// One stretch of one motion. Pieces follow each other without overlap; a piece ends where the next
// one begins unless the receiver was off in between.
struct Piece {
    Motion motion = Motion::stopped;
    double start_s = 0.0;
    double end_s = 0.0;
    Polyline path;                // smoothed; a single place for a stop
    std::vector<double> times_s;  // when it was at each place of the path
    double length_m = 0.0;
    double confidence = 0.0;  // mean probability of the motion over the piece's fixes, 0 to 1
    [[nodiscard]] double time_s() const { return end_s - start_s; }
};

// What someone who knows says that a time of a drive was, both ends included.
struct ToldMotion {
    double from_s = 0.0;
    double to_s = 0.0;
    Motion motion = Motion::stopped;
    [[nodiscard]] bool holds(double time_s) const { return time_s >= from_s && time_s <= to_s; }
};

}  // namespace haylane
