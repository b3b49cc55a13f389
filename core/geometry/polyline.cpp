// Plain walks along the pieces; the line-to-line distance is brute force with box rejection, eight
// pieces at a time, since the lines compared are short. Two pieces that do not cross are nearest at
// an end of one of them.
#include "core/geometry/polyline.h"

#include "core/base/require.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {

namespace {

constexpr double kShareSlack = 1e-12;  // rounding allowed past a piece's ends, as a share of it

struct Place {
    std::size_t piece = 0;  // from vertex piece to piece + 1
    double along_m = 0.0;   // from the piece's first vertex
    double length_m = 0.0;  // of the piece
};

// The last piece with a length that starts at or before `distance` (clamped).
Place find_place(const Polyline& line, double distance) {
    Place place;
    double start = 0.0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const double length = distance_m(line[i], line[i + 1]);
        if (length <= 0.0) continue;
        if (place.length_m > 0.0 && start > distance) break;
        place = {i, std::clamp(distance - start, 0.0, length), length};
        start += length;
    }
    return place;
}

double segment_distance_m(Point a, Point b, Point c, Point d) {
    if (box_of(a, b).meets(box_of(c, d)) && segment_crossing(a, b, c, d)) return 0.0;
    const auto square_m2 = [](Point p, Point from, Point to) {
        const Point away = p - nearest_on_segment(p, from, to);
        return dot(away, away);
    };
    return std::sqrt(
        std::min({square_m2(a, c, d), square_m2(b, c, d), square_m2(c, a, b), square_m2(d, a, b)}));
}

// The segments of a line; a single point counts as one segment without length.
std::size_t segment_count(const Polyline& line) {
    return line.size() <= 1 ? line.size() : line.size() - 1;
}

Point segment_end(const Polyline& line, std::size_t i) {
    return line[std::min(i + 1, line.size() - 1)];
}

// Some pieces of a line that follow each other, and the box around them.
struct PieceGroup {
    std::size_t from = 0;
    std::size_t to = 0;
    Box box;
};

std::vector<PieceGroup> piece_groups(const Polyline& line) {
    constexpr std::size_t kGroup = 8;
    std::vector<PieceGroup> groups;
    const std::size_t count = segment_count(line);
    for (std::size_t from = 0; from < count; from += kGroup) {
        PieceGroup group{from, std::min(count, from + kGroup), {}};
        for (std::size_t i = group.from; i < group.to; ++i) group.box.add(line[i]);
        group.box.add(segment_end(line, group.to - 1));
        groups.push_back(group);
    }
    return groups;
}

// Least distance of segment p-q from the group's pieces; `cap` when they are farther.
double distance_to_group_m(Point p, Point q, const Polyline& line, const PieceGroup& group,
                           double cap) {
    const Box near = box_of(p, q);
    if (!near.grown_by(cap).meets(group.box)) return cap;
    double least = cap;
    for (std::size_t j = group.from; j < group.to; ++j) {
        const Point d = segment_end(line, j);
        if (!near.grown_by(least).meets(box_of(line[j], d))) continue;
        least = std::min(least, segment_distance_m(p, q, line[j], d));
    }
    return least;
}

// The piece of a line, not empty, that comes nearest to p.
struct Nearest {
    Point at;
    std::size_t piece = 0;
    double square_m2 = 0.0;
};

Nearest nearest_piece(Point p, const Polyline& line) {
    Nearest best{line.front(), 0, dot(p - line.front(), p - line.front())};
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const Point at = nearest_on_segment(p, line[i], line[i + 1]);
        const double square = dot(p - at, p - at);
        if (square < best.square_m2) best = {at, i, square};
    }
    return best;
}

}  // namespace

double length_m(const Polyline& line) {
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) sum += distance_m(line[i], line[i + 1]);
    return sum;
}

Point point_at(const Polyline& line, double distance) {
    require(!line.empty(), "a place on an empty line");
    const Place place = find_place(line, distance);
    if (place.length_m <= 0.0) return line.front();
    if (place.along_m >= place.length_m) return line[place.piece + 1];
    return lerp(line[place.piece], line[place.piece + 1], place.along_m / place.length_m);
}

double azimuth_at(const Polyline& line, double distance) {
    const Place place = find_place(line, distance);
    return place.length_m > 0.0 ? azimuth_rad(line[place.piece], line[place.piece + 1]) : 0.0;
}

Polyline part_of(const Polyline& line, double from, double to) {
    if (line.empty()) return {};
    const double length = length_m(line);
    from = std::clamp(from, 0.0, length);
    to = std::clamp(to, from, length);
    Polyline part{point_at(line, from)};
    double at = 0.0;
    for (std::size_t i = 1; i + 1 < line.size(); ++i) {
        at += distance_m(line[i - 1], line[i]);
        if (at > from && at < to && line[i] != part.back()) part.push_back(line[i]);
    }
    const Point end = point_at(line, to);
    if (end != part.back()) part.push_back(end);
    return part;
}

Polyline reversed(Polyline line) {
    std::reverse(line.begin(), line.end());
    return line;
}

Polyline densified(const Polyline& line, double step) {
    require(step > 0.0, "a step must be above 0");
    Polyline dense;
    if (!line.empty()) dense.push_back(line.front());
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const double length = distance_m(line[i], line[i + 1]);
        const int pieces = std::max(1, static_cast<int>(std::ceil(length / step - 1e-9)));
        for (int k = 1; k < pieces; ++k)
            dense.push_back(lerp(line[i], line[i + 1], static_cast<double>(k) / pieces));
        dense.push_back(line[i + 1]);
    }
    return dense;
}

Polyline resampled(const Polyline& line, double step) {
    require(step > 0.0, "a step must be above 0");
    Polyline even;
    if (line.empty()) return even;
    even.push_back(line.front());
    double start = 0.0;  // of this piece along the line
    double next = step;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const double length = distance_m(line[i], line[i + 1]);
        while (length > 0.0 && next <= start + length) {
            even.push_back(lerp(line[i], line[i + 1], (next - start) / length));
            next = step * static_cast<double>(even.size());
        }
        start += length;
    }
    if (distance_m(even.back(), line.back()) > 1e-9 * step || even.size() == 1)
        even.push_back(line.back());
    else
        even.back() = line.back();
    return even;
}

double bow_m(const Polyline& line) {
    double bow = 0.0;
    for (const Point p : line)
        bow = std::max(bow, distance_m(p, nearest_on_segment(p, line.front(), line.back())));
    return bow;
}

double max_curvature_per_m(const Polyline& line) {
    Polyline clean;
    for (const Point p : line)
        if (clean.empty() || clean.back() != p) clean.push_back(p);
    double greatest = 0.0;
    for (std::size_t i = 0; i + 2 < clean.size(); ++i) {
        const Point a = clean[i];
        const Point b = clean[i + 1];
        const Point c = clean[i + 2];
        const double sides = distance_m(a, b) * distance_m(b, c) * distance_m(a, c);
        if (sides <= 0.0) return std::numeric_limits<double>::infinity();  // straight back
        greatest = std::max(greatest, 2.0 * std::abs(cross(b - a, c - b)) / sides);
    }
    return greatest;
}

double distance_m(Point p, const Polyline& line) {
    return line.empty() ? std::numeric_limits<double>::infinity()
                        : std::sqrt(nearest_piece(p, line).square_m2);
}

double distance_m(const Polyline& a, const Polyline& b, double cap, double floor) {
    if (a.size() == 2 && b.size() == 2)
        return std::min(cap, segment_distance_m(a[0], a[1], b[0], b[1]));
    const std::vector<PieceGroup> groups_a = piece_groups(a);
    const std::vector<PieceGroup> groups_b = piece_groups(b);
    double least = cap;
    for (const PieceGroup& of_a : groups_a) {
        for (const PieceGroup& of_b : groups_b) {
            if (!of_a.box.grown_by(least).meets(of_b.box)) continue;
            if (least < floor) return least;
            for (std::size_t i = of_a.from; i < of_a.to; ++i)
                least =
                    std::min(least, distance_to_group_m(a[i], segment_end(a, i), b, of_b, least));
        }
    }
    return least;
}

Box box_of(const Polyline& line) {
    Box box;
    for (const Point p : line) box.add(p);
    return box;
}

bool lines_cross(const Polyline& a, const Polyline& b) {
    const Box all = box_of(a);
    for (std::size_t j = 0; j + 1 < b.size(); ++j) {
        const Box near = box_of(b[j], b[j + 1]);
        if (!near.meets(all)) continue;
        for (std::size_t i = 0; i + 1 < a.size(); ++i)
            if (near.meets(box_of(a[i], a[i + 1])) &&
                segment_crossing(a[i], a[i + 1], b[j], b[j + 1]))
                return true;
    }
    return false;
}

Box box_of(Point a, Point b) {
    Box box;
    box.add(a);
    box.add(b);
    return box;
}

Foot nearest_foot(Point p, const Polyline& line) {
    require(!line.empty(), "the foot on an empty line");
    const auto [nearest, piece, square] = nearest_piece(p, line);
    double along = distance_m(line[piece], nearest);
    for (std::size_t i = 0; i < piece; ++i) along += distance_m(line[i], line[i + 1]);
    return {nearest, along, std::sqrt(square)};
}

Point nearest_on_segment(Point p, Point a, Point b) {
    const Point d = b - a;
    const double square = dot(d, d);
    if (square <= 0.0) return a;
    return lerp(a, b, std::clamp(dot(p - a, d) / square, 0.0, 1.0));
}

std::optional<Point> segment_crossing(Point a, Point b, Point c, Point d) {
    const Point r = b - a;
    const Point s = d - c;
    const double turn = cross(r, s);
    if (std::abs(turn) <= kShareSlack * norm_m(r) * norm_m(s)) return std::nullopt;
    const double t = cross(c - a, s) / turn;
    const double u = cross(c - a, r) / turn;
    const auto on_piece = [](double share) {
        return share >= -kShareSlack && share <= 1.0 + kShareSlack;
    };
    if (!on_piece(t) || !on_piece(u)) return std::nullopt;
    return lerp(a, b, std::clamp(t, 0.0, 1.0));
}

}  // namespace haylane
