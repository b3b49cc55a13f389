#pragma once
// Where the rig was and how fast it went at each fix, from all fixes before and after it: a
// constant-velocity Kalman filter with Rauch-Tung-Striebel smoothing, the same model for both axes.
// Fixes may come at uneven times, which must rise. Linear in the fixes.

#include "core/tracks/track.h"

#include <span>
#include <vector>

namespace haylane {

struct SmoothOptions {
    double fix_variance_m2 = 9.0;          // of one fix along one axis: 3 m; assumption
    double acceleration_m2_per_s3 = 0.05;  // spectral density of the accelerations; assumption
    double start_variance = 100.0;         // of the first place (m2) and speed (m2/s2)
};

struct SmoothState {
    SmoothFix fix;
    double place_variance_m2 = 0.0;         // along one axis
    double speed_variance_m2_per_s2 = 0.0;  // the same
};

// One state a fix.
[[nodiscard]] std::vector<SmoothState> smooth_track(std::span<const Fix> fixes,
                                                    const SmoothOptions& options = {});

}  // namespace haylane
