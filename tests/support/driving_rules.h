#pragma once
// A slow judge of how a plan's loads are driven, for tests only: it walks the legs of every load
// and measures against the ranch's raw shapes, sharing no code with core/lines or core/haul.
// Gives what is broken as text, a line each; empty when all holds.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"
#include "tests/support/line_rules.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace haylane::test {

// R = sqrt(turn^2 + L^2) turns a trailer of length L no tighter than turn, and it runs R - turn
// inside: R_t^2 = R^2 - L^2 (plane kinematics; survey Sayers 1986, TRR 1052:53-62).
inline double rig_radius(const Rig& rig) { return std::hypot(rig.turn_radius_m, rig.hitch_m); }
inline double rig_cuts_in(const Rig& rig) { return rig_radius(rig) - rig.turn_radius_m; }

inline double angle_between(Point a, Point b, Point c, Point d) {
    const double first = std::atan2(b.y - a.y, b.x - a.x);
    const double second = std::atan2(d.y - c.y, d.x - c.x);
    return std::abs(std::remainder(second - first, 6.283185307179586));
}

// A proper crossing: the pieces' ends lie on both sides of one another.
inline bool brute_crosses(Point a, Point b, Point c, Point d) {
    const auto side = [](Point p, Point q, Point r) {
        return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    };
    return side(a, b, c) * side(a, b, d) < -1e-12 && side(c, d, a) * side(c, d, b) < -1e-12;
}

// A driven leg over a line laid before; within half a metre of the leg's ends it may touch.
inline bool brute_over_hay(const Polyline& leg, const Polyline& hay) {
    for (std::size_t i = 0; i + 1 < leg.size(); ++i) {
        for (std::size_t k = 0; k + 1 < hay.size(); ++k) {
            if (!brute_crosses(leg[i], leg[i + 1], hay[k], hay[k + 1])) continue;
            const Point middle{(leg[i].x + leg[i + 1].x) / 2, (leg[i].y + leg[i + 1].y) / 2};
            const auto far_from = [&](Point end) {
                return std::hypot(middle.x - end.x, middle.y - end.y) > 1.0;
            };
            if (far_from(leg.front()) && far_from(leg.back())) return true;
        }
    }
    return false;
}

// Where a tractor may turn: inside the fence by a metre and what its machine cuts in, and so far
// off water, wetland and buildings.
inline std::string broken_turn_at(const Ranch& ranch, const PlannedFeeding& feeding, Point p) {
    constexpr double kSlack = 1e-6;
    const double cuts_in = rig_cuts_in(ranch[feeding.rig]);
    const std::vector<Ring> fence = rings_of(ranch[feeding.pasture].shape);
    if (!brute_inside(fence, p)) return "outside the fence";
    for (const Ring& ring : fence)
        if (brute_distance(p, ring, true) < 1.0 + cuts_in - kSlack) return "too near the fence";
    for (const OffLimits& item : ranch.off_limits) {
        if (item.kind != OffLimitsKind::water && item.kind != OffLimitsKind::wetland &&
            item.kind != OffLimitsKind::building)
            continue;
        const std::vector<Ring> area = rings_of(item.area);
        if (!area.empty() && brute_inside(area, p)) return "in " + item.name;
        for (const Ring& ring : area)
            if (brute_distance(p, ring, true) < cuts_in - kSlack) return "cuts into " + item.name;
        for (const Polyline& line : item.lines)
            if (brute_distance(p, line, false) < 0.5 + cuts_in - kSlack)
                return "cuts into " + item.name;
    }
    return "";
}

struct DrivenPlan {
    std::vector<std::string> broken;
    int joins = 0;      // lay legs of more than one line
    int turns_in = 0;   // ways in and out that were looked at
    int backed_up = 0;  // feedings with the caution that there is no room to turn
    int over_hay = 0;   // feedings with the caution that hay is driven over
};

// The ways between a load's lines over the lines of that load laid before.
inline bool joins_over_hay(const Polyline& laying, const std::vector<Polyline>& lines) {
    std::size_t from = 0;
    for (std::size_t k = 1; k < lines.size(); ++k) {
        std::size_t to = from;
        while (to < laying.size() && std::hypot(laying[to].x - lines[k].front().x,
                                                laying[to].y - lines[k].front().y) > 0.02)
            ++to;
        if (to == laying.size()) return true;  // never gets to its line
        const Polyline driven(laying.begin() + static_cast<std::ptrdiff_t>(from),
                              laying.begin() + static_cast<std::ptrdiff_t>(to) + 1);
        for (std::size_t i = 0; i < k; ++i)
            if (brute_over_hay(driven, lines[i])) return true;
        from = to;
    }
    return false;
}

inline bool has_caution(const PlannedFeeding& feeding, const std::string& code) {
    return std::any_of(feeding.cautions.begin(), feeding.cautions.end(),
                       [&](const Caution& caution) { return caution.code == code; });
}

inline void judge_load(const Ranch& ranch, const PlannedFeeding& feeding, const PlannedLoad& load,
                       std::vector<Polyline>& hay, DrivenPlan& found) {
    const std::string where = load.line_ids.front() + ": ";
    const double radius = rig_radius(ranch[feeding.rig]);
    // A chord of at most a metre of an arc of this radius turns off its tangent by so much.
    const double tangent = std::asin(1.0 / (2.0 * radius)) + 1e-6;
    const bool may_back_up = has_caution(feeding, "no_turn");
    const bool may_drive_over = has_caution(feeding, "over_hay");
    std::vector<Polyline> lines;
    for (const std::string& id : load.line_ids)
        for (const PlannedLine& line : feeding.lines)
            if (line.id == id) lines.push_back(line.path);
    for (const PlannedLeg& leg : load.legs) {
        if (leg.path.size() < 2) continue;
        if (leg.kind == LegKind::back) hay.insert(hay.end(), lines.begin(), lines.end());
        if (!may_drive_over)
            for (const Polyline& line : hay)
                if (brute_over_hay(leg.path, line)) found.broken.push_back(where + "over hay");
        if (leg.kind == LegKind::lay) {
            if (lines.size() > 1) ++found.joins;
            if (!may_drive_over && joins_over_hay(leg.path, lines))
                found.broken.push_back(where + "over its own hay");
            for (const double window : {2.0, 6.0})
                if (!may_back_up && sharpest_turn_per_m(leg.path, window) * radius > 1.02)
                    found.broken.push_back(where + "turns too sharply while laying");
            for (const Point p : leg.path) {
                const std::string off = may_back_up ? "" : broken_turn_at(ranch, feeding, p);
                if (!off.empty()) found.broken.push_back(where + off);
            }
            continue;
        }
        ++found.turns_in;
        if (may_back_up) continue;
        const Polyline& path = leg.path;
        const std::size_t n = path.size();
        const double turned =
            leg.kind == LegKind::out
                ? angle_between(path[n - 2], path[n - 1], lines.front()[0], lines.front()[1])
                : angle_between(lines.back()[lines.back().size() - 2], lines.back().back(), path[0],
                                path[1]);
        if (turned > tangent) found.broken.push_back(where + "a corner where way and line meet");
    }
}

// Every load of a plan in the order driven.
inline DrivenPlan driven_plan(const Ranch& ranch, const Plan& plan) {
    DrivenPlan found;
    std::vector<Polyline> hay;  // laid that day
    sys_days day{};
    for (const PlannedFeeding& feeding : plan.feedings) {
        if (feeding.date != day) hay.clear();
        day = feeding.date;
        if (has_caution(feeding, "no_turn")) ++found.backed_up;
        if (has_caution(feeding, "over_hay")) ++found.over_hay;
        for (const PlannedLoad& load : feeding.loads) judge_load(ranch, feeding, load, hay, found);
    }
    return found;
}

}  // namespace haylane::test
