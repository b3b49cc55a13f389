#pragma once
// The lines that were laid, of the pieces a track was cut into.

#include "core/tracks/cut_track.h"

#include <vector>

namespace haylane {

// What has been laid in one go: laying pieces with nothing but a stop between them. Where the rig
// turned back (more than 80 degrees within 40 m) another line begins: rows driven without a break
// are lines of their own.
struct LaidLine {
    Polyline path;
    double length_m = 0.0;
    double start_s = 0.0;
    double end_s = 0.0;
    double confidence = 0.0;
    std::size_t first_piece = 0;
    std::size_t last_piece = 0;
};
[[nodiscard]] std::vector<LaidLine> laid_lines(const CutTrack& cut);

}  // namespace haylane
