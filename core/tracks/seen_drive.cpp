#include "core/tracks/seen_drive.h"

#include <cmath>

namespace haylane {

namespace {

constexpr double kTurnOver_s = 4.0;    // turning is measured over so much time
constexpr double kSlow_m_per_s = 0.4;  // below, a heading means nothing

double turning(const std::vector<SmoothState>& fixes, std::size_t i) {
    std::size_t before = i;
    std::size_t after = i;
    const double now = fixes[i].fix.time_s;
    while (before > 0 && now - fixes[before].fix.time_s < kTurnOver_s) --before;
    while (after + 1 < fixes.size() && fixes[after].fix.time_s - now < kTurnOver_s) ++after;
    const Point a = fixes[before].fix.velocity_m_per_s;
    const Point b = fixes[after].fix.velocity_m_per_s;
    if (after == before || norm_m(a) < kSlow_m_per_s || norm_m(b) < kSlow_m_per_s) return 0.0;
    return std::abs(std::atan2(cross(a, b), dot(a, b))) /
           (fixes[after].fix.time_s - fixes[before].fix.time_s);
}

SmoothState middle(const SmoothState& a, const SmoothState& b) {
    SmoothState out = a;
    const double silence_s = b.fix.time_s - a.fix.time_s;
    out.fix.time_s += 0.5 * silence_s;
    out.fix.at = lerp(a.fix.at, b.fix.at, 0.5);
    out.fix.velocity_m_per_s = (b.fix.at - a.fix.at) * (1.0 / silence_s);
    return out;
}

}  // namespace

DrivePlaces::DrivePlaces(const Ranch& ranch, double near_yard_m) : near_yard_m_(near_yard_m) {
    for (const Yard& yard : ranch.yards) yards_.push_back(yard.at);
    for (const Pasture& pasture : ranch.pastures) {
        pastures_.push_back(&pasture.shape);
        boxes_.push_back(box_of(pasture.shape));
    }
}

PlaceKind DrivePlaces::kind(Point p) const {
    for (const Point yard : yards_)
        if (distance_m(yard, p) <= near_yard_m_) return PlaceKind::yard;
    for (std::size_t i = 0; i < pastures_.size(); ++i)
        if (boxes_[i].contains(p) && contains(*pastures_[i], p)) return PlaceKind::pasture;
    return PlaceKind::elsewhere;
}

SeenDrive seen_drive(DriveFixes drive, const DrivePlaces& places,
                     std::span<const ToldMotion> told) {
    SeenDrive out;
    const auto put = [&out](const SmoothState& fix, bool breaks, bool unseen) {
        out.fixes.push_back(fix);
        out.breaks.push_back(breaks);
        out.unseen.push_back(unseen);
    };
    out.fixes.reserve(drive.fixes.size());
    for (std::size_t i = 0; i < drive.fixes.size(); ++i) {
        const SmoothState& fix = drive.fixes[i];
        if (i > 0 && !drive.breaks[i] &&
            fix.fix.time_s - drive.fixes[i - 1].fix.time_s >= kSilence_s)
            put(middle(drive.fixes[i - 1], fix), false, true);
        put(fix, drive.breaks[i], false);
    }
    drive = {};
    out.told_times = told;
    out.signs.reserve(out.fixes.size());
    out.told.assign(out.fixes.size(), std::nullopt);
    for (std::size_t i = 0; i < out.fixes.size(); ++i) {
        const SmoothState& state = out.fixes[i];
        out.signs.push_back({state.fix.speed_m_per_s(), state.speed_variance_m2_per_s2,
                             turning(out.fixes, i), places.kind(state.fix.at)});
        for (const ToldMotion& one : told)
            if (one.holds(state.fix.time_s)) out.told[i] = one.motion;
    }
    return out;
}

}  // namespace haylane
