#pragma once
// Makes pieces of the fixes of a drive once it is known what the rig did at each.

#include "core/tracks/seen_drive.h"

#include <vector>

namespace haylane {

// One of each a fix. Where nothing that was seen beside it is of its motion, a fix that was not
// seen is a piece by itself; else it is not used.
struct MarkedFixes {
    const SeenDrive& drive;
    const std::vector<Motion>& motions;
    const std::vector<float>& sure;  // probability of the motion
};

// Where the motion changes between two fixes, the pieces meet half way; in a silence they meet
// where both motions' speeds take the rig from the last fix before it to the first one after it,
// or when what was told ends or begins. `speeds` stands in for motions too short to show their own.
// Linear in the fixes.
[[nodiscard]] std::vector<Piece> make_pieces(const MarkedFixes& marked, const DriveSpeeds& speeds);

}  // namespace haylane
