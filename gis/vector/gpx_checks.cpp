// A spike is a point at least 10 km from both its neighbours, which lie ten times nearer to each
// other: no vehicle on a ranch goes out and back so far between two fixes. Routes have no spikes,
// their points may lie that far apart. Limits here are common practice, no source.
#include "gis/vector/gpx_checks.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr std::size_t kNamed = 5;
constexpr double kNear_deg = 0.05;  // 7.9 km at most, less than kSpike_m
constexpr double kSpike_m = 10000.0;
constexpr std::chrono::hours kJump = std::chrono::days(365);

double length_m(const std::vector<GpxPoint>& points) {
    double sum = 0.0;
    for (std::size_t i = 1; i < points.size(); ++i) {
        sum += rough_distance_m(points[i - 1].at, points[i].at);
    }
    return sum;
}

bool spike(LonLat before, LonLat at, LonLat after) {
    // A few metres, told without the sphere: nearly every step of a recorded track.
    if (std::abs(at.lat_deg - before.lat_deg) < kNear_deg &&
        std::abs(at.lon_deg - before.lon_deg) < kNear_deg) {
        return false;
    }
    const double in = rough_distance_m(before, at);
    if (in <= kSpike_m) return false;
    const double out = rough_distance_m(at, after);
    return std::min(in, out) > kSpike_m &&
           rough_distance_m(before, after) < 0.1 * std::min(in, out);
}

struct Left {
    GpxPoint point;
    bool fix = true;
    double away_m = 0.0;  // from the last good point; 0 if there is none
};

// Whether any point is to be left out; most tracks need no copy.
bool all_good(const std::vector<GpxPoint>& points, bool route) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (!has_fix(points[i].at)) return false;
        const bool inside = i > 0 && i + 1 < points.size();
        if (!route && inside && spike(points[i - 1].at, points[i].at, points[i + 1].at)) {
            return false;
        }
    }
    return true;
}

void drop_spikes(std::vector<GpxPoint>& points, bool route, ProblemTally& tally) {
    if (all_good(points, route)) return;
    std::vector<Left> left;
    std::vector<GpxPoint> good;
    good.reserve(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        const LonLat at = points[i].at;
        const bool inside = !good.empty() && i + 1 < points.size();
        const bool fix = has_fix(at);
        if (fix && (route || !inside || !spike(good.back().at, at, points[i + 1].at))) {
            good.push_back(points[i]);
        } else {
            const double away = good.empty() ? 0.0 : rough_distance_m(good.back().at, at);
            left.push_back({points[i], fix, away});
        }
    }
    if (left.empty()) return;
    points = std::move(good);
    const double length = length_m(points);
    for (const Left& one : left) {
        const std::string away =
            one.away_m > 0.0
                ? fmt::format("{:.0f} km from the point before it", one.away_m / 1000.0)
                : std::string("the receiver had no fix");
        tally.add(one.fix ? "position_spike" : "no_fix", one.point.line,
                  fmt::format("the position {}, {} was left out: {}; without it the line is {:.0f} "
                              "m long",
                              one.point.at.lat_deg, one.point.at.lon_deg, away, length),
                  "check the line on the map");
    }
}

// Each segment's first step back and first jump.
void check_times(const std::vector<GpxPoint>& points, ProblemTally& tally) {
    const GpxPoint* before = nullptr;
    bool back = false;
    bool jump = false;
    for (const GpxPoint& point : points) {
        if (!point.time) continue;
        const auto step =
            before == nullptr ? std::chrono::milliseconds(0) : *point.time - *before->time;
        if (step.count() < 0 && !back) {
            back = true;
            tally.add("time_goes_back", point.line, "the time goes back here",
                      "speeds over this step are not used");
        }
        if (step > kJump && !jump) {
            jump = true;
            const double years =
                std::chrono::duration<double, std::chrono::years::period>(step).count();
            tally.add("time_jump", point.line, fmt::format("the time jumps by {:.1f} years", years),
                      "check the receiver's clock; speeds over this step are not used");
        }
        before = &point;
    }
}

void check_places(const GpxTrack& track, ProblemTally& tally) {
    const char* what = track.route ? "route" : "track";
    const GpxPoint* first = nullptr;
    std::size_t count = 0;
    bool moved = false;
    for (const GpxSegment& segment : track.segments) {
        if (segment.points.size() == 1) {
            tally.add("shape_part_left_out", segment.points.front().line,
                      fmt::format("the {} has a part of one point, which is no line", what),
                      "record it again while moving, or remove it");
        }
        for (const GpxPoint& point : segment.points) {
            if (first == nullptr) first = &point;
            moved = moved || !(point.at == first->at);
            ++count;
        }
    }
    if (count == 0) {
        tally.add("no_geometry", track.label.line, fmt::format("the {} holds no points", what),
                  "record it again, or remove it from the file");
    } else if (count > 1 && !moved) {
        tally.add(
            "receiver_stood_still", track.label.line,
            fmt::format("all {} points of the {} are one place: the receiver stood still, and "
                        "its length is 0",
                        count, what),
            "record it again while moving, or remove it");
    }
}

}  // namespace

double rough_distance_m(LonLat a, LonLat b) {
    const double lat_a = units::rad_from_deg(a.lat_deg);
    const double lat_b = units::rad_from_deg(b.lat_deg);
    const double north = std::sin(0.5 * (lat_b - lat_a));
    const double east = std::sin(0.5 * units::rad_from_deg(b.lon_deg - a.lon_deg));
    const double h = north * north + std::cos(lat_a) * std::cos(lat_b) * east * east;
    return 2.0 * 6371000.0 * std::asin(std::sqrt(std::min(h, 1.0)));
}

std::string ProblemTally::where(std::size_t line) const {
    return fmt::format("{}, {} {}", file_, counted_, line);
}

void ProblemTally::add(std::string_view code, std::size_t line, std::string text,
                       std::string remedy) {
    auto kind = std::find_if(kinds_.begin(), kinds_.end(),
                             [code](const Kind& one) { return one.named.front().code == code; });
    if (kind == kinds_.end()) kind = kinds_.insert(kinds_.end(), Kind{});
    if (kind->named.size() < kNamed) {
        kind->named.push_back({std::string(code), Severity::warning, where(line), std::move(text),
                               std::move(remedy)});
    } else {
        ++kind->more;
    }
    kind->last_line = std::max(kind->last_line, line);
}

Problems ProblemTally::problems() const {
    Problems all;
    for (const Kind& kind : kinds_) {
        all.insert(all.end(), kind.named.begin(), kind.named.end());
        if (kind.more == 0) continue;
        Problem rest = kind.named.front();
        rest.text = fmt::format("and so {} times more, the last in {} {}: {}", kind.more, counted_,
                                kind.last_line, rest.text);
        rest.where = file_;
        all.push_back(std::move(rest));
    }
    return all;
}

void check_gpx_tracks(std::vector<GpxTrack>& tracks, ProblemTally& tally) {
    for (GpxTrack& track : tracks) {
        for (GpxSegment& segment : track.segments) {
            drop_spikes(segment.points, track.route, tally);
            check_times(segment.points, tally);
        }
        check_places(track, tally);
    }
}

}  // namespace haylane
