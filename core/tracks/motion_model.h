#pragma once
// What a hay rig's morning looks like to a receiver: seven hidden states, how long each lasts and
// what follows it, and how likely a speed, a turn and a place are in each. Every figure is an
// assumption tuned on simulated mornings (docs/methods/tracks.md), except the rig's own feeding
// speed and the driving speed across pasture, which come from the ranch.

#include "core/tracks/hidden_path.h"
#include "core/tracks/track.h"

#include <array>
#include <cstddef>

namespace haylane {

// A stop is a state of its own for each leg of a trip, so that what follows a stop at a gate is
// what came before it.
enum class DriveState { loading, out, out_stop, laying, laying_stop, back, back_stop };
inline constexpr std::size_t kDriveStates = 7;
[[nodiscard]] Motion motion_of(DriveState state);

enum class PlaceKind { yard, pasture, elsewhere };

struct DriveSpeeds {
    double feed_m_per_s = 0.67;
    double haul_m_per_s = 1.79;  // across pasture, the slowest hauling
};

// What is seen at one fix.
struct DriveSign {
    double speed_m_per_s = 0.0;
    double speed_variance_m2_per_s2 = 0.0;
    double turn_rad_per_s = 0.0;  // how fast the heading changes, without sign
    PlaceKind place = PlaceKind::elsewhere;
};

using StateRow = std::array<double, kDriveStates>;

// Log of the probability of each state at a track's first fix.
[[nodiscard]] StateRow first_state_log();
// Log of the probability of going from each state to each in a time: the exponential of the rates,
// so that it holds for any interval. From x to.
[[nodiscard]] std::vector<double> transition_log(double time_s);
// Log likelihood of a sign in each state.
[[nodiscard]] StateRow sign_log(const DriveSign& sign, const DriveSpeeds& speeds);

}  // namespace haylane
