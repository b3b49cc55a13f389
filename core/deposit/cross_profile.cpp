// Widths are common practice, no source: an unrolled windrow reaches about 2.5 ft to either side;
// shredded hay lies in a windrow and a tail of up to 8 ft down-wind, about 4 ft on the discharge
// side in still air. At cells of 3 m the exact shares matter little; the side does.
#include "core/deposit/cross_profile.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr double kUnrolledReachM = 2.5 * units::kMetersPerFoot;
constexpr double kStillTailM = 4.0 * units::kMetersPerFoot;
constexpr double kWindyTailM = 8.0 * units::kMetersPerFoot;

TailSide discharge_side(Discharge discharge) {
    switch (discharge) {
        case Discharge::left:
            return TailSide::left;
        case Discharge::right:
            return TailSide::right;
        case Discharge::behind:
            return TailSide::both;
    }
    return TailSide::both;
}

// kg 1 spread evenly along `line`, whose place among all lines has the share `share`.
void append_even(const Polyline& line, double share, const PastureGround& ground,
                 std::vector<CellAmount>& cells) {
    if (line.empty() || ground.cells == 0) return;
    const double length = length_m(line);
    if (length <= 0.0) {
        cells.push_back({nearest_cell(line.front(), ground), share});
        return;
    }
    const std::vector<CellAmount> walked = cells_along(line, share / length, ground);
    cells.insert(cells.end(), walked.begin(), walked.end());
}

// Each line's share of the total length; even when none has a length.
std::vector<double> length_shares(const MultiPolyline& lines) {
    std::vector<double> shares;
    double total = 0.0;
    for (const Polyline& line : lines) {
        shares.push_back(length_m(line));
        total += shares.back();
    }
    for (double& share : shares) {
        share = total > 0.0 ? share / total : 1.0 / static_cast<double>(lines.size());
    }
    return shares;
}

// The tail, a quarter of all, takes the fines as well.
CrossProfile with_fines(CrossProfile profile, double windrow_edge_m, double fines_share_ratio) {
    constexpr double kTail_ratio = 0.25;
    for (Strip& strip : profile) {
        const bool in_tail = std::abs(strip.offset_m) > windrow_edge_m;
        const double fines = in_tail ? strip.share_ratio / kTail_ratio * fines_share_ratio : 0.0;
        strip.share_ratio = strip.share_ratio * (1.0 - fines_share_ratio) + fines;
    }
    return profile;
}

}  // namespace

CrossProfile cross_profile(const Rig& rig, TailSide side, bool windy, double fines_share_ratio) {
    if (rig.method == Method::unroll) {
        const double reach = std::max(kUnrolledReachM, 0.5 * rig.windrow_m);
        return {{{-reach, 0.1}, {-0.5 * reach, 0.2}, {0.0, 0.4}, {0.5 * reach, 0.2}, {reach, 0.1}}};
    }
    const double third = rig.windrow_m / 3.0;
    const double edge = 0.5 * rig.windrow_m;
    const double in_wind = rig.drift_downwind_m > 0.0 ? rig.drift_downwind_m : kWindyTailM;
    const double tail = windy ? in_wind : std::min(in_wind, kStillTailM);
    if (side == TailSide::both) {
        return with_fines({{{-edge - 0.5 * tail, 0.125},
                            {-third, 0.25},
                            {0.0, 0.25},
                            {third, 0.25},
                            {edge + 0.5 * tail, 0.125}}},
                          edge, fines_share_ratio);
    }
    const double way = side == TailSide::right ? 1.0 : -1.0;
    return with_fines({{{-third, 0.25},
                        {0.0, 0.25},
                        {third, 0.25},
                        {way * (edge + 0.5 * tail), 0.15},
                        {way * (edge + tail), 0.10}}},
                      edge, fines_share_ratio);
}

TailSide tail_side(const Rig& rig, const Polyline& line, double wind_from_rad) {
    if (rig.method == Method::unroll) return TailSide::both;
    if (wind_from_rad < 0.0 || line.size() < 2) return discharge_side(rig.discharge);
    const Point chord = line.back() - line.front();
    const Point toward = along_azimuth(wind_from_rad) * -1.0;
    const double turn = cross(chord, toward);
    if (std::abs(turn) <= 1e-9 * norm_m(chord)) return discharge_side(rig.discharge);
    return turn > 0.0 ? TailSide::left : TailSide::right;
}

Polyline offset_line(const Polyline& line, double offset_m) {
    Polyline clean;
    for (const Point p : line) {
        if (clean.empty() || distance_m(clean.back(), p) > 0.0) clean.push_back(p);
    }
    if (clean.size() < 2 || offset_m == 0.0) return clean;
    const auto right_of = [&](std::size_t s) {
        const Point d = clean[s + 1] - clean[s];
        return Point{d.y, -d.x} * (1.0 / norm_m(d));
    };
    Polyline moved;
    for (std::size_t v = 0; v < clean.size(); ++v) {
        const Point before = right_of(v == 0 ? 0 : v - 1);
        const Point after = right_of(v + 1 == clean.size() ? v - 1 : v);
        const Point both = before + after;
        // Mitre: along the bisector, 1 / cos(half the turn), held to 2.
        const double square = dot(both, both);
        const Point step =
            square > 1.0 ? both * (2.0 / square) : both * (2.0 / std::max(norm_m(both), 1e-12));
        moved.push_back(clean[v] + (square > 1e-12 ? step : after) * offset_m);
    }
    return moved;
}

std::vector<CellAmount> residue_cells(const MultiPolyline& lines, const Rig* rig,
                                      double wind_from_rad, const PastureGround& ground,
                                      double fines_share_ratio) {
    if (rig == nullptr) return line_cells(lines, ground);
    std::vector<CellAmount> cells;
    const std::vector<double> shares = length_shares(lines);
    for (std::size_t l = 0; l < lines.size(); ++l) {
        const TailSide side = tail_side(*rig, lines[l], wind_from_rad);
        for (const Strip& strip :
             cross_profile(*rig, side, wind_from_rad >= 0.0, fines_share_ratio)) {
            append_even(offset_line(lines[l], strip.offset_m), shares[l] * strip.share_ratio,
                        ground, cells);
        }
    }
    return merged(std::move(cells));
}

std::vector<CellAmount> line_cells(const MultiPolyline& lines, const PastureGround& ground) {
    std::vector<CellAmount> cells;
    const std::vector<double> shares = length_shares(lines);
    for (std::size_t l = 0; l < lines.size(); ++l) append_even(lines[l], shares[l], ground, cells);
    return merged(std::move(cells));
}

}  // namespace haylane
