#pragma once
// What a picture shows of a cut track: each piece with no more places than its pixels can tell.

#include "core/tracks/cut_track.h"

#include <vector>

namespace haylane {

struct DrawnPiece {
    Motion motion = Motion::stopped;
    Polyline path;  // a single place for a stop
};

// One a piece, in its order. `pixel_m`: what a pixel is on the ground, above 0. Cost: points x log
// points.
[[nodiscard]] std::vector<DrawnPiece> drawn_pieces(const CutTrack& cut, double pixel_m);

}  // namespace haylane
