// The way is left at one of many places along its part inside the pasture, by one Dubins word into
// the line; the quickest that may be driven is taken. Where hay lies across, shortest ways are
// searched (Dijkstra 1959) over the ground's corners and points beside the ends of hay, and the
// turn is sought from there. Ways out of a line are the mirror image in time.
#include "core/haul/field_ends.h"

#include "core/base/units.h"
#include "core/geometry/turn_path.h"
#include "core/lines/loads.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace haylane {

namespace {

// Half a tractor's width and half a windrow's: nearer, its wheels run on hay (common practice, no
// source).
constexpr double kBeside_m = 2.0;
constexpr double kAround_m = 1.5 * kBeside_m;  // points to turn at stand so far from hay
constexpr double kCurveStep_m = 20.0;          // between such points along curved hay
constexpr double kStep_m = 1.0;                // of driven turns
constexpr double kHair_m = 1e-9;

// A turn that ends in a line beside which hay begins comes so near it before its end.
double near_end_m(double radius_m) { return std::sqrt(2.0 * radius_m * kBeside_m) + 0.5; }

// Beside all hay but for its last `near_end_m`, and across none.
bool is_off_hay(const Polyline& way, const MultiPolyline& hay, double near_end_m) {
    if (crosses_hay(way, hay)) return false;
    const double far_m = length_m(way) - near_end_m;
    if (far_m <= 0.0) return true;
    const Polyline far = part_of(way, 0.0, far_m);
    return std::all_of(hay.begin(), hay.end(), [&](const Polyline& line) {
        return distance_m(far, line, kBeside_m) >= kBeside_m - kHair_m;
    });
}

void add_part(Route& route, RoutePart part) {
    route.length_m += part.length_m;
    route.drive_s += part.length_m / part.speed_m_per_s;
    route.parts.push_back(std::move(part));
}

// The route as far as `along_m` of its drawn length.
Route head_of(const Route& route, double along_m) {
    Route head = route;
    head.parts.clear();
    head.length_m = 0.0;
    head.drive_s = 0.0;
    for (const RoutePart& part : route.parts) {
        const double drawn = length_m(part.path);
        if (along_m <= kHair_m) break;
        RoutePart own = part;
        if (drawn > along_m) {
            own.path = part_of(part.path, 0.0, along_m);
            own.length_m *= along_m / drawn;
        }
        along_m -= drawn;
        add_part(head, std::move(own));
    }
    return head;
}

Route with_part(Route head, Polyline path, double speed_m_per_s) {
    const double length = length_m(path);
    add_part(head, {std::move(path), std::nullopt, length, speed_m_per_s});
    return head;
}

// Drawn length up to where straight moves in the pasture's free ground reach the end.
double tail_start_m(const Polyline& path, const FreeSpace& space) {
    std::size_t i = path.size() - 1;
    while (i > 0 && space.sees(path[i - 1], path[i])) --i;
    return length_m({path.begin(), path.begin() + static_cast<std::ptrdiff_t>(i) + 1});
}

// Where the way may be left, as drawn lengths: close together near the line.
std::vector<double> places_to_leave_m(const Polyline& path, const TurnGround& ground) {
    const double total = length_m(path);
    const double tail = total - tail_start_m(path, *ground.space);
    std::vector<double> places;
    double before_end = 0.0;
    while (before_end < tail) {
        places.push_back(total - before_end);
        before_end +=
            before_end < 8.0 * ground.radius_m ? 0.5 * ground.radius_m : 2.0 * ground.radius_m;
    }
    places.push_back(total - tail);
    return places;
}

struct Turn {
    TurnPath path;
    Pose from;
    double along_m = 0.0;
    double time_s = 0.0;  // of the whole way with it
};

double theta_of(double azimuth) { return units::kPi / 2.0 - azimuth; }

// All turns into the line, the quickest way first.
std::vector<Turn> turns_into(const Route& out, const Polyline& line, const TurnGround& ground) {
    const Polyline path = out.path();
    const Pose start{line[0], theta_of(azimuth_rad(line[0], line[1]))};
    std::vector<Turn> turns;
    for (const double along : places_to_leave_m(path, ground)) {
        const Pose from{point_at(path, along), theta_of(azimuth_at(path, along))};
        const double head_s = head_of(out, along).drive_s;
        for (const TurnWord word :
             {TurnWord::none, TurnWord::straight, TurnWord::lsl, TurnWord::rsr, TurnWord::lsr,
              TurnWord::rsl, TurnWord::rlr, TurnWord::lrl}) {
            const auto turn = turn_path(word, from, start, ground.radius_m);
            if (turn)
                turns.push_back(
                    {*turn, from, along, head_s + turn->length_m / ground.field_m_per_s});
        }
    }
    std::stable_sort(turns.begin(), turns.end(),
                     [](const Turn& a, const Turn& b) { return a.time_s < b.time_s; });
    return turns;
}

std::optional<Route> turned_in(const Route& out, const Polyline& line, const MultiPolyline& hay,
                               const TurnGround& ground) {
    for (const Turn& turn : turns_into(out, line, ground)) {
        const Polyline driven = drive(turn.path, turn.from, ground.radius_m, kStep_m);
        if (!ground.drivable->covers(driven)) continue;
        Route whole = with_part(head_of(out, turn.along_m), driven, ground.field_m_per_s);
        if (is_off_hay(whole.path(), hay, near_end_m(ground.radius_m))) return whole;
    }
    return std::nullopt;
}

std::optional<Route> round_hay(const Route& out, const MultiPolyline& hay,
                               const TurnGround& ground) {
    const Polyline path = out.path();
    const double along = tail_start_m(path, *ground.space);
    auto way = way_round_hay(*ground.space, point_at(path, along), path.back(), hay,
                             near_end_m(ground.radius_m));
    if (!way) return std::nullopt;
    return with_part(head_of(out, along), std::move(*way), ground.field_m_per_s);
}

// Points from which hay can be passed: round its ends, and along both sides where it bends.
void add_points_beside(const Polyline& hay, std::vector<Point>& points) {
    const double length = length_m(hay);
    const int pieces = hay.size() < 3 ? 1 : std::max(1, static_cast<int>(length / kCurveStep_m));
    for (int k = 0; k <= pieces; ++k) {
        const double along = length * k / pieces;
        const Point at = point_at(hay, along);
        const Point ahead = along_azimuth(azimuth_at(hay, along)) * kAround_m;
        const Point aside{ahead.y, -ahead.x};
        const Point beyond = k == 0 ? ahead * -1.0 : k == pieces ? ahead : Point{};
        points.push_back(at + beyond + aside);
        points.push_back(at + beyond - aside);
    }
}

FieldWay way_in_pasture(const Route& out, const Polyline& line, const MultiPolyline& hay,
                        const TurnGround& ground) {
    if (auto turned = turned_in(out, line, hay, ground)) return {std::move(*turned), true, true};
    if (is_off_hay(out.path(), hay, near_end_m(ground.radius_m))) return {out, false, true};
    auto round = round_hay(out, hay, ground);
    if (!round) return {out, false, false};
    if (auto turned = turned_in(*round, line, hay, ground)) return {std::move(*turned), true, true};
    return {std::move(*round), false, true};
}

}  // namespace

std::optional<Polyline> way_round_hay(const FreeSpace& space, Point a, Point b,
                                      const MultiPolyline& hay, double near_b_m) {
    std::vector<Point> points{a, b};
    points.insert(points.end(), space.corners().begin(), space.corners().end());
    for (const Polyline& line : hay) add_points_beside(line, points);
    std::vector<double> driven_m(points.size(), std::numeric_limits<double>::infinity());
    std::vector<std::size_t> before(points.size(), 0);
    std::vector<bool> settled(points.size());
    driven_m[0] = 0.0;
    while (true) {
        std::size_t here = points.size();
        for (std::size_t i = 0; i < points.size(); ++i)
            if (!settled[i] && (here == points.size() || driven_m[i] < driven_m[here])) here = i;
        if (here == points.size() || !std::isfinite(driven_m[here])) return std::nullopt;
        if (here == 1) break;
        settled[here] = true;
        for (std::size_t i = 1; i < points.size(); ++i) {
            const double there_m = driven_m[here] + distance_m(points[here], points[i]);
            if (settled[i] || there_m >= driven_m[i] || !space.sees(points[here], points[i]))
                continue;
            if (!is_off_hay({points[here], points[i]}, hay, i == 1 ? near_b_m : 0.0)) continue;
            driven_m[i] = there_m;
            before[i] = here;
        }
    }
    Polyline way{b};
    for (std::size_t i = before[1]; i != 0; i = before[i]) way.push_back(points[i]);
    way.push_back(a);
    return reversed(std::move(way));
}

FieldWay way_in(const Route& out, const Polyline& line, const MultiPolyline& hay,
                const TurnGround& ground) {
    MultiPolyline here;
    MultiPolyline elsewhere;  // nothing done in this pasture gets round it
    for (const Polyline& laid : hay) {
        const bool inside =
            !laid.empty() && ground.drivable->contains(point_at(laid, 0.5 * length_m(laid)));
        (inside ? here : elsewhere).push_back(laid);
    }
    FieldWay way = way_in_pasture(out, line, here, ground);
    way.off_hay = way.off_hay && !crosses_hay(way.route.path(), elsewhere);
    return way;
}

FieldWay way_out(const Route& back, const Polyline& line, const MultiPolyline& hay,
                 const TurnGround& ground) {
    FieldWay way = way_in(reversed(back), reversed(line), hay, ground);
    way.route = reversed(way.route);
    return way;
}

}  // namespace haylane
