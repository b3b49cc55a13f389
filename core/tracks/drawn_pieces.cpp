// Places less than a pixel apart fall together first; what adds less than half a pixel's area goes
// then, but not the end of a way there and back.
#include "core/tracks/drawn_pieces.h"

#include "core/geometry/simplify.h"

namespace haylane {

namespace {

// Both ends and what is a pixel or more from the last place kept.
Polyline apart(const Polyline& path, double pixel_m) {
    Polyline out;
    for (const Point p : path)
        if (out.empty() || distance_m(out.back(), p) >= pixel_m) out.push_back(p);
    if (path.size() > 1 && out.back() != path.back()) out.push_back(path.back());
    return out;
}

}  // namespace

std::vector<DrawnPiece> drawn_pieces(const CutTrack& cut, double pixel_m) {
    std::vector<DrawnPiece> out;
    out.reserve(cut.pieces.size());
    for (const Piece& piece : cut.pieces)
        out.push_back({piece.motion, simplified_by_area(apart(piece.path, pixel_m),
                                                        0.5 * pixel_m * pixel_m, 0.5 * pixel_m)});
    return out;
}

}  // namespace haylane
