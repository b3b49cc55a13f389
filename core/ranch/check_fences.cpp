// How the pieces of the map fit together: overlaps of pastures, gates and fences, trails and
// fences, and what lies on off-limits ground.
#include "core/geometry/boolean_ops.h"
#include "core/geometry/region.h"
#include "core/ranch/check_parts.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

constexpr double kOverlap_m2 = 40.0;  // 0.01 acre: less is two drawings of one fence
constexpr double kTrailEnd_m = 0.5;   // a trail that ends on a fence does not cross it
constexpr double kOnShape_m = 1.0;    // nearer to a line or point than this is on it
constexpr double kNoGround_m2 = 1.0;

std::vector<Region> fences_of(const Ranch& ranch) {
    std::vector<Region> fences;
    for (const Pasture& pasture : ranch.pastures) fences.emplace_back(pasture.shape);
    return fences;
}

double nearest_fence_m(Point at, const std::vector<Region>& fences) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const Region& fence : fences) nearest = std::min(nearest, fence.distance_to_edge_m(at));
    return nearest;
}

bool near_gate(Point at, const Ranch& ranch) {
    return std::any_of(ranch.gates.begin(), ranch.gates.end(), [&](const Gate& gate) {
        return distance_m(gate.at, at) <= ranch.settings.gate_snap_m;
    });
}

void check_gate_places(Checking& checking, const std::vector<Region>& fences) {
    const double snap_m = checking.ranch.settings.gate_snap_m;
    for (const Gate& gate : checking.ranch.gates) {
        const double away_m = nearest_fence_m(gate.at, fences);
        if (away_m <= snap_m) continue;
        checking.warn(
            "gate_far_from_fence", "gates",
            fmt::format("Gate \"{}\" is {} from the nearest pasture fence, so it opens "
                        "none.",
                        gate.name, checking.length_text(away_m)),
            fmt::format("Move it onto its fence (within {}).", checking.length_text(snap_m)));
    }
}

void check_pasture_gates(Checking& checking, const std::vector<Region>& fences) {
    const Ranch& ranch = checking.ranch;
    for (std::size_t i = 0; i < fences.size(); ++i) {
        const Pasture& pasture = ranch.pastures[i];
        const bool has_gate =
            std::any_of(ranch.gates.begin(), ranch.gates.end(), [&](const Gate& gate) {
                return fences[i].distance_to_edge_m(gate.at) <= ranch.settings.gate_snap_m;
            });
        if (has_gate || !pasture.feed) continue;
        checking.warn("pasture_without_gate", "pastures",
                      fmt::format("Pasture \"{}\" has no gate in its fence, so no load can get in.",
                                  pasture.name),
                      "Draw its gate, or set feed to no.");
    }
}

// Crossings of one line with one fence that no gate opens.
std::size_t closed_crossings(const Polyline& line, const Region& fence, const Ranch& ranch) {
    std::size_t count = 0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        for (const double share : fence.crossings(line[i], line[i + 1])) {
            const Point at = lerp(line[i], line[i + 1], share);
            const bool at_end = distance_m(at, line.front()) < kTrailEnd_m ||
                                distance_m(at, line.back()) < kTrailEnd_m;
            if (!at_end && !near_gate(at, ranch)) ++count;
        }
    }
    return count;
}

void check_trail_fences(Checking& checking, const std::vector<Region>& fences) {
    const Ranch& ranch = checking.ranch;
    for (const Trail& trail : ranch.trails) {
        std::vector<std::string> crossed;
        for (std::size_t i = 0; i < fences.size(); ++i) {
            std::size_t count = 0;
            for (const Polyline& line : trail.path) {
                count += closed_crossings(line, fences[i], ranch);
            }
            if (count > 0) {
                crossed.push_back(fmt::format("\"{}\" ({})", ranch.pastures[i].name, count));
            }
        }
        if (crossed.empty()) continue;
        checking.warn("trail_crosses_fence_without_gate", "trails",
                      fmt::format("Trail \"{}\" crosses the fence of {} where there is no gate "
                                  "within {}; it is cut there.",
                                  trail.name, fmt::join(crossed, ", "),
                                  checking.length_text(ranch.settings.gate_snap_m)),
                      "Draw the gate on the fence, or move the trail.");
    }
}

void check_yard_ways(Checking& checking, const std::vector<Region>& fences) {
    const Ranch& ranch = checking.ranch;
    const double snap_m = ranch.settings.trail_snap_m;
    for (const Yard& yard : ranch.yards) {
        bool reached = std::any_of(fences.begin(), fences.end(),
                                   [&](const Region& fence) { return fence.contains(yard.at); });
        for (const Trail& trail : ranch.trails) {
            for (const Polyline& line : trail.path) {
                reached = reached || distance_m(yard.at, line) <= snap_m;
            }
        }
        if (reached) continue;
        checking.warn("yard_unreachable", "yards",
                      fmt::format("Yard \"{}\" lies in no pasture and no trail comes within {} of "
                                  "it, so its hay cannot be hauled.",
                                  yard.name, checking.length_text(snap_m)),
                      "Draw the trail to the yard.");
    }
}

bool lies_on(Point at, const OffLimits& place) {
    if (contains(place.area, at)) return true;
    for (const Polyline& line : place.lines) {
        if (distance_m(at, line) < kOnShape_m) return true;
    }
    return std::any_of(place.points.begin(), place.points.end(),
                       [&](Point p) { return distance_m(at, p) < kOnShape_m; });
}

bool may_not_be_driven(OffLimitsKind kind) {
    return kind == OffLimitsKind::water || kind == OffLimitsKind::wetland ||
           kind == OffLimitsKind::building;
}

template <class Items>
void check_on_off_limits(Checking& checking, std::string_view role, std::string_view what,
                         const Items& items) {
    for (const auto& item : items) {
        for (const OffLimits& place : checking.ranch.off_limits) {
            if (!may_not_be_driven(place.kind) || !lies_on(item.at, place)) continue;
            checking.warn(fmt::format("{}_in_off_limits", folded(what)), std::string(role),
                          fmt::format("{} \"{}\" lies on off-limits \"{}\" ({}), which may not be "
                                      "driven on.",
                                      what, item.name, place.name, to_string(place.kind)),
                          fmt::format("Move the {} or the off-limits shape.", folded(what)));
        }
    }
}

// The ground a place takes, setback included; empty where GEOS gives up.
MultiPolygon taken_ground(const OffLimits& place) {
    std::vector<MultiPolygon> parts;
    const auto keep = [&](Result<MultiPolygon> part) {
        if (part) parts.push_back(std::move(*part));
    };
    if (place.setback_m <= 0.0) return place.area;
    if (!place.area.empty()) keep(buffer_shape(place.area, place.setback_m));
    for (const Polyline& line : place.lines) keep(buffer_line(line, place.setback_m));
    for (const Point p : place.points) keep(buffer_point(p, place.setback_m));
    return unite(parts).value_or(MultiPolygon{});
}

}  // namespace

void check_overlaps(Checking& checking) {
    const auto& pastures = checking.ranch.pastures;
    for (std::size_t i = 0; i < pastures.size(); ++i) {
        for (std::size_t j = i + 1; j < pastures.size(); ++j) {
            if (!box_of(pastures[i].shape).meets(box_of(pastures[j].shape))) continue;
            const Result<MultiPolygon> common = intersect(pastures[i].shape, pastures[j].shape);
            if (!common || area_m2(*common) < kOverlap_m2) continue;
            checking.warn(
                "overlapping_pastures", "pastures",
                fmt::format("Pastures \"{}\" and \"{}\" overlap by {}; that ground counts "
                            "as \"{}\".",
                            pastures[i].name, pastures[j].name,
                            checking.area_text(area_m2(*common)), pastures[i].name),
                "Draw their common fence once and let both follow it.");
        }
    }
}

void check_fences(Checking& checking) {
    const std::vector<Region> fences = fences_of(checking.ranch);
    check_gate_places(checking, fences);
    if (!checking.ranch.gates.empty()) check_pasture_gates(checking, fences);
    if (checking.ranch.trails.empty()) return;
    check_trail_fences(checking, fences);
    check_yard_ways(checking, fences);
}

void check_off_limits_places(Checking& checking) {
    const Ranch& ranch = checking.ranch;
    check_on_off_limits(checking, "gates", "Gate", ranch.gates);
    check_on_off_limits(checking, "yards", "Yard", ranch.yards);
    std::vector<MultiPolygon> taken;
    for (const OffLimits& place : ranch.off_limits) taken.push_back(taken_ground(place));
    const MultiPolygon all_taken = unite(taken).value_or(MultiPolygon{});
    for (const Pasture& pasture : ranch.pastures) {
        if (!pasture.feed) continue;
        const Result<MultiPolygon> left = subtract(pasture.shape, all_taken);
        if (!left || area_m2(*left) >= kNoGround_m2) continue;
        checking.warn(
            "no_feedable_ground", "pastures",
            fmt::format("Pasture \"{}\" is off-limits all over, setbacks included; nothing "
                        "can be fed in it.",
                        pasture.name),
            "Check the off-limits shapes and their setbacks, or set feed to no.");
    }
}

}  // namespace haylane
