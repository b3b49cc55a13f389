#include "core/tracks/laid_lines.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr double kSameLine_m = 15.0;   // a line goes on after a stop if it starts so near
constexpr double kChord_m = 40.0;      // turns are measured over so much line on both sides
constexpr double kTurnBack_rad = 1.4;  // 80 degrees; assumption

// Angle (0 to pi) by which a line turns at a distance from its start, over chords of kChord_m.
double turn_at(const Polyline& line, double along) {
    const Point here = point_at(line, along);
    const Point into = here - point_at(line, along - kChord_m);
    const Point on = point_at(line, along + kChord_m) - here;
    return std::abs(std::atan2(cross(into, on), dot(into, on)));
}

// Where rows driven one after the other without a break turn back: the sharpest place of each turn
// above kTurnBack_rad, as distances from the start.
std::vector<double> turns_back(const Polyline& line) {
    constexpr double kStep_m = 2.0;
    std::vector<double> out;
    double sharpest = 0.0;
    double where = 0.0;
    const double whole = length_m(line);
    for (double along = kChord_m; along <= whole - kChord_m; along += kStep_m) {
        const double turn = turn_at(line, along);
        if (turn > kTurnBack_rad && turn > sharpest) {
            sharpest = turn;
            where = along;
        }
        const bool past = turn <= kTurnBack_rad || along + kStep_m > whole - kChord_m;
        if (sharpest > 0.0 && past) {
            out.push_back(where);
            sharpest = 0.0;
        }
    }
    return out;
}

void add_rows(const LaidLine& line, std::vector<LaidLine>& out) {
    std::vector<double> ends = turns_back(line.path);
    ends.push_back(line.length_m);
    double from = 0.0;
    for (const double to : ends) {
        LaidLine row = line;
        row.path = part_of(line.path, from, to);
        row.length_m = to - from;
        const double speed = line.length_m / std::max(line.end_s - line.start_s, 1.0);
        row.start_s = line.start_s + from / speed;
        row.end_s = line.start_s + to / speed;
        out.push_back(std::move(row));
        from = to;
    }
}

}  // namespace

std::vector<LaidLine> laid_lines(const CutTrack& cut) {
    std::vector<LaidLine> lines;
    for (std::size_t i = 0; i < cut.pieces.size(); ++i) {
        const Piece& piece = cut.pieces[i];
        if (piece.motion != Motion::laying) continue;
        const bool goes_on = !lines.empty() && lines.back().last_piece + 2 == i &&
                             cut.pieces[i - 1].motion == Motion::stopped &&
                             distance_m(lines.back().path.back(), piece.path.front()) < kSameLine_m;
        if (!goes_on) {
            lines.push_back(
                {piece.path, piece.length_m, piece.start_s, piece.end_s, piece.confidence, i, i});
            continue;
        }
        LaidLine& line = lines.back();
        const double whole = line.length_m + piece.length_m;
        line.confidence =
            (line.confidence * line.length_m + piece.confidence * piece.length_m) / whole;
        line.path.insert(line.path.end(), piece.path.begin(), piece.path.end());
        line.length_m = length_m(line.path);
        line.end_s = piece.end_s;
        line.last_piece = i;
    }
    std::vector<LaidLine> rows;
    for (const LaidLine& line : lines) add_rows(line, rows);
    return rows;
}

}  // namespace haylane
