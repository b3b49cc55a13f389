// One pass forward for time and speed, with a hold on fixes that jumped until those after them say
// whether the jump lasted; then one pass over triples for what speed alone lets through: a fix far
// from where its neighbours, joined in a straight line at even speed, put it (a second difference,
// so an acceleration).
#include "core/tracks/clean_track.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

class Cleaner {
  public:
    Cleaner(std::span<const TrackPoint> points, const CleanOptions& options)
        : points_(points), options_(options) {
        out_.fixes.reserve(points.size());
    }

    CleanTrack run() {
        for (std::size_t i = 0; i < points_.size(); ++i) take(i);
        for (const Fix& fix : jumped_) drop(fix.point, DropReason::spike);
        drop_accelerations();
        note_gaps();
        std::sort(out_.dropped.begin(), out_.dropped.end(),
                  [](const DroppedPoint& a, const DroppedPoint& b) { return a.point < b.point; });
        return std::move(out_);
    }

  private:
    void take(std::size_t i) {
        const TrackPoint& point = points_[i];
        if (!std::isfinite(point.at.x) || !std::isfinite(point.at.y))
            return drop(i, DropReason::not_finite);
        if (!point.time_s) return drop(i, DropReason::no_time);
        const Fix fix{point.at, *point.time_s, i};
        if (out_.fixes.empty()) return begin_part(fix);
        const Fix& last = out_.fixes.back();
        const double step_s = fix.time_s - last.time_s;
        if (step_s < -options_.clock_back_s || step_s > options_.part_s) {
            give_up_jump();
            return begin_part(fix);
        }
        if (step_s <= 0.0) {
            const bool same = step_s == 0.0 && distance_m(fix.at, last.at) < 0.01;
            return drop(i, same ? DropReason::repeated : DropReason::backward_time);
        }
        if (reachable(last, fix)) {
            give_up_jump();
            out_.fixes.push_back(fix);
            return;
        }
        hold(fix);
    }

    [[nodiscard]] bool reachable(const Fix& from, const Fix& to) const {
        const double step_s = to.time_s - from.time_s;
        return step_s > 0.0 &&
               distance_m(from.at, to.at) <= options_.noise_m + options_.most_m_per_s * step_s;
    }

    // Fixes away from the track: a new part once enough of them agree with each other.
    void hold(const Fix& fix) {
        if (!jumped_.empty() && !reachable(jumped_.back(), fix)) give_up_jump();
        jumped_.push_back(fix);
        if (jumped_.size() < options_.reacquire) return;
        begin_part(jumped_.front());
        out_.fixes.insert(out_.fixes.end(), jumped_.begin() + 1, jumped_.end());
        jumped_.clear();
    }

    void give_up_jump() {
        for (const Fix& fix : jumped_) drop(fix.point, DropReason::spike);
        jumped_.clear();
    }

    void begin_part(const Fix& fix) {
        out_.parts.push_back(out_.fixes.size());
        out_.fixes.push_back(fix);
    }

    void drop(std::size_t point, DropReason reason) {
        out_.dropped.push_back({point, reason});
        ++out_.counts[static_cast<std::size_t>(reason)];
    }

    [[nodiscard]] bool too_sharp(const Fix& before, const Fix& fix, const Fix& after) const {
        const double into_s = fix.time_s - before.time_s;
        const double on_s = after.time_s - fix.time_s;
        const Point even = lerp(before.at, after.at, into_s / (into_s + on_s));
        return distance_m(fix.at, even) >
               options_.noise_m + 0.5 * options_.most_m_per_s2 * into_s * on_s;
    }

    void drop_accelerations() {
        std::vector<Fix>& fixes = out_.fixes;
        std::vector<std::size_t> parts;
        std::size_t kept = 0;
        for (std::size_t p = 0; p < out_.parts.size(); ++p) {
            const std::size_t begin = out_.parts[p];
            const std::size_t end = p + 1 < out_.parts.size() ? out_.parts[p + 1] : fixes.size();
            parts.push_back(kept);
            const std::size_t first = kept;
            for (std::size_t i = begin; i < end; ++i) {
                if (kept > first && i + 1 < end &&
                    too_sharp(fixes[kept - 1], fixes[i], fixes[i + 1])) {
                    drop(fixes[i].point, DropReason::spike);
                } else {
                    fixes[kept++] = fixes[i];
                }
            }
        }
        fixes.resize(kept);
        out_.parts = std::move(parts);
    }

    void note_gaps() {
        std::size_t part = 1;
        for (std::size_t i = 1; i < out_.fixes.size(); ++i) {
            if (part < out_.parts.size() && out_.parts[part] == i) {
                ++part;
                continue;
            }
            const double step_s = out_.fixes[i].time_s - out_.fixes[i - 1].time_s;
            if (step_s > options_.gap_s) out_.gaps.push_back({i - 1, step_s});
        }
    }

    std::span<const TrackPoint> points_;
    const CleanOptions& options_;
    CleanTrack out_;
    std::vector<Fix> jumped_;
};

}  // namespace

std::string_view to_string(DropReason reason) {
    switch (reason) {
        case DropReason::no_time:
            return "no time";
        case DropReason::not_finite:
            return "no place";
        case DropReason::repeated:
            return "repeated";
        case DropReason::backward_time:
            return "time goes back";
        case DropReason::spike:
            return "jump";
    }
    return "jump";
}

std::span<const Fix> CleanTrack::part(std::size_t i) const {
    const std::size_t end = i + 1 < parts.size() ? parts[i + 1] : fixes.size();
    return std::span<const Fix>(fixes).subspan(parts[i], end - parts[i]);
}

CleanTrack clean_track(std::span<const TrackPoint> points, const CleanOptions& options) {
    return Cleaner(points, options).run();
}

}  // namespace haylane
