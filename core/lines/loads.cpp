// Distance from the gate orders the loads; ways in are taken as straight from the nearest gate, or
// from the line before within a load. The real way in is the haul stage's.
#include "core/lines/loads.h"

#include "core/base/require.h"
#include "core/lines/discharge.h"
#include "core/lines/drivable.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

namespace haylane {

namespace {

constexpr double kRoomSlack_m = 1e-9;
constexpr double kTouch_m = 0.5;  // a way may leave and end this near hay already laid

Point nearest_gate(Point p, const std::vector<Point>& gates) {
    return *std::min_element(gates.begin(), gates.end(),
                             [&](Point a, Point b) { return distance_m(p, a) < distance_m(p, b); });
}

double gate_distance_m(const CandidateLine& line, const std::vector<Point>& gates) {
    double least = std::numeric_limits<double>::infinity();
    for (const Point gate : gates) least = std::min(least, distance_m(gate, line.path));
    return least;
}

struct Ranked {
    double load_distance_m = 0.0;  // of the load's nearest line
    double distance_m = 0.0;
    CandidateLine line;
};

std::vector<Ranked> farthest_first(std::vector<CandidateLine> lines, const LineRequest& request) {
    std::vector<double> of_load(request.loads.size(), std::numeric_limits<double>::infinity());
    std::vector<Ranked> ranked;
    for (CandidateLine& line : lines) {
        const double distance = gate_distance_m(line, request.gates);
        double& least = of_load[static_cast<std::size_t>(line.load)];
        least = std::min(least, distance);
        ranked.push_back({0.0, distance, std::move(line)});
    }
    for (Ranked& one : ranked)
        one.load_distance_m = of_load[static_cast<std::size_t>(one.line.load)];
    std::stable_sort(ranked.begin(), ranked.end(), [](const Ranked& a, const Ranked& b) {
        if (a.load_distance_m != b.load_distance_m) return a.load_distance_m > b.load_distance_m;
        if (a.line.load != b.line.load) return a.line.load < b.line.load;
        return a.distance_m > b.distance_m;
    });
    return ranked;
}

template <class Laid, class PathOf>
bool crosses_any(const Polyline& way, const Laid& laid, const PathOf& path_of) {
    const double length = length_m(way);
    if (length <= 2.0 * kTouch_m) return false;
    const Polyline inner = part_of(way, kTouch_m, length - kTouch_m);
    return std::any_of(laid.begin(), laid.end(),
                       [&](const auto& line) { return lines_cross(inner, path_of(line)); });
}

}  // namespace

LoadQueue::LoadQueue(const std::vector<LineRequest::Load>& loads, double longest_m)
    : loads_(&loads), longest_m_(longest_m) {
    for (const auto& load : loads)
        require(load.bales >= 1 && load.length_m > 0.0, "a load needs bales and a length");
    if (!loads.empty()) left_ = loads.front().bales;
}

std::optional<LoadPiece> LoadQueue::fitting(double room_m) const {
    if (done()) return std::nullopt;
    const LineRequest::Load& load = (*loads_)[load_];
    const double bale_m = load.length_m / load.bales;
    const int number = static_cast<int>(load_);
    if (bale_m * left_ <= room_m + kRoomSlack_m) return LoadPiece{number, left_, bale_m * left_};
    if (load.length_m <= longest_m_ + kRoomSlack_m) return std::nullopt;
    const int bales = static_cast<int>(std::floor((room_m + kRoomSlack_m) / bale_m));
    if (bales < 1) return std::nullopt;
    return LoadPiece{number, bales, bale_m * bales};
}

void LoadQueue::take(const LoadPiece& piece) {
    left_ -= piece.bales;
    if (left_ > 0) return;
    ++load_;
    left_ = done() ? 0 : (*loads_)[load_].bales;
}

std::optional<Candidate> in_driving_order(std::vector<CandidateLine> lines,
                                          const LineRequest& request) {
    if (lines.size() > 1 && !request.gates.empty()) {
        std::vector<Ranked> ranked = farthest_first(std::move(lines), request);
        lines.clear();
        for (Ranked& one : ranked) lines.push_back(std::move(one.line));
    }
    Candidate candidate;
    candidate.in_rings = request.in_rings;
    for (CandidateLine& line : lines) {
        if (throws_into_wind(line.path, request)) line.path = reversed(std::move(line.path));
        if (!may_start(line, candidate.lines, request)) {
            line.path = reversed(std::move(line.path));
            if (!may_start(line, candidate.lines, request)) return std::nullopt;
        }
        candidate.lines.push_back(std::move(line));
    }
    return candidate;
}

bool crosses_hay(const Polyline& way, std::span<const CandidateLine> laid) {
    return crosses_any(way, laid,
                       [](const CandidateLine& line) -> const Polyline& { return line.path; });
}

bool crosses_hay(const Polyline& way, const MultiPolyline& laid) {
    return crosses_any(way, laid, [](const Polyline& line) -> const Polyline& { return line; });
}

bool may_start(const CandidateLine& line, std::span<const CandidateLine> laid,
               const LineRequest& request) {
    const Point start = line.path.front();
    if (!start_is_clear(start, request.gates, request.gate_keep_m)) return false;
    if (laid.empty() || request.gates.empty()) return true;
    const bool same_load = laid.back().load == line.load;
    const Point from = same_load ? laid.back().path.back() : nearest_gate(start, request.gates);
    return !crosses_hay({from, start}, laid);
}

}  // namespace haylane
