// Trails are cut at every boundary they cross; a gate joins the ends again (travel_graph), so that
// each passage is counted. A cut with no gate near, open or shut, is a problem of the map.
#include "core/haul/fences.h"

#include "core/haul/motion.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {
namespace {

constexpr double kShortestPieceM = 0.02;

bool named(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

bool gate_near(const Ranch& ranch, Point p) {
    return std::any_of(ranch.gates.begin(), ranch.gates.end(), [&](const Gate& gate) {
        return distance_m(gate.at, p) <= ranch.settings.gate_snap_m;
    });
}

// Distances along the path where it crosses fences, sorted.
std::vector<double> cuts_of(const Polyline& path, const Fences& fences) {
    std::vector<double> cuts;
    double along = 0.0;
    for (std::size_t i = 1; i < path.size(); ++i) {
        const double piece = distance_m(path[i - 1], path[i]);
        for (const double share : fences.crossings(path[i - 1], path[i]))
            cuts.push_back(along + share * piece);
        along += piece;
    }
    return cuts;
}

Problem no_gate_problem(const Trail& trail) {
    return {"trail_crosses_fence_without_gate", Severity::warning, "trails, " + trail.name,
            fmt::format("Trail {} crosses a fence where no gate is drawn; it is cut there.",
                        trail.name),
            "Draw the gate, or move the trail or the fence to where it is."};
}

}  // namespace

Fences::Fences(const Ranch& ranch) {
    pastures_.reserve(ranch.pastures.size());
    std::vector<double> areas_m2;
    for (const Pasture& pasture : ranch.pastures) {
        pastures_.emplace_back(pasture.shape);
        by_area_.push_back(static_cast<int>(by_area_.size()));
        areas_m2.push_back(area_m2(pasture.shape));
    }
    std::stable_sort(by_area_.begin(), by_area_.end(), [&](int a, int b) {
        return areas_m2[static_cast<std::size_t>(a)] < areas_m2[static_cast<std::size_t>(b)];
    });
}

// The ground of a lot drawn on top of a pasture is taken off that pasture (drivable_ground), so the
// smallest holds the point.
int Fences::region_at(Point p) const {
    for (const int i : by_area_)
        if (pasture(i).contains(p)) return i;
    return kOutside;
}

std::vector<double> Fences::crossings(Point a, Point b) const {
    Box box;
    box.add(a);
    box.add(b);
    std::vector<double> shares;
    for (const Region& pasture : pastures_) {
        if (!pasture.box().meets(box)) continue;
        const std::vector<double> some = pasture.crossings(a, b);
        shares.insert(shares.end(), some.begin(), some.end());
    }
    std::sort(shares.begin(), shares.end());
    return shares;
}

bool Fences::clear(Point a, Point b, std::optional<Point> gate, double reach_m) const {
    const std::vector<double> shares = crossings(a, b);
    const double length = distance_m(a, b);
    return std::all_of(shares.begin(), shares.end(), [&](double share) {
        const bool touches =
            share * length < kShortestPieceM || (1.0 - share) * length < kShortestPieceM;
        return touches || (gate && distance_m(*gate, lerp(a, b, share)) <= reach_m);
    });
}

std::optional<std::string> why_shut(const Gate& gate, const TravelConditions& conditions) {
    if (named(conditions.blocked, gate.name)) return "is blocked";
    if (gate.closed.holds(conditions.date)) return "is closed on " + format_day(conditions.date);
    return std::nullopt;
}

std::optional<std::string> why_shut(const Trail& trail, const TravelConditions& conditions) {
    if (named(conditions.blocked, trail.name)) return "is blocked";
    if (trail.closed.holds(conditions.date)) return "is closed on " + format_day(conditions.date);
    if (trail.max_kg && *trail.max_kg < conditions.loaded_kg)
        return "does not carry the weight of this load";
    const bool earth = trail.surface == Surface::dirt || trail.surface == Surface::two_track;
    const GroundState ground{conditions.snow, conditions.thaw, conditions.low_c};
    if (earth && conditions.thaw && !frozen_overnight(ground)) return "is soft in a thaw";
    return std::nullopt;
}

CutTrails cut_trails(const Ranch& ranch, const Fences& fences, const TravelConditions& conditions,
                     bool all) {
    CutTrails out;
    for (std::size_t t = 0; t < ranch.trails.size(); ++t) {
        const Trail& trail = ranch.trails[t];
        bool told = false;
        for (const Polyline& path : trail.path) {
            const double total = length_m(path);
            std::vector<double> cuts = cuts_of(path, fences);
            for (const double cut : cuts) {
                if (told || gate_near(ranch, point_at(path, cut))) continue;
                out.problems.push_back(no_gate_problem(trail));
                told = true;
            }
            if (!all && why_shut(trail, conditions)) continue;
            cuts.push_back(total);
            double from = 0.0;
            for (const double to : cuts) {
                if (to - from < kShortestPieceM) continue;
                const int region = fences.region_at(point_at(path, 0.5 * (from + to)));
                out.pieces.push_back({TrailId::at(t), part_of(path, from, to), region,
                                      from < kShortestPieceM, total - to < kShortestPieceM});
                from = to;
            }
        }
    }
    return out;
}

}  // namespace haylane
