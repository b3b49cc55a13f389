#include "core/plan/check_plan.h"

#include "core/geometry/boolean_ops.h"
#include "core/ground/terrain.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kStep_m = 1.0;
constexpr double kTolerance_m = 0.01;
constexpr double kBowLimit_m = 0.3;
constexpr double kCurvatureSlack = 1.02;  // chords between vertices bend a little more than the arc

class Checker {
  public:
    Checker(const Ranch& ranch, const Plan& plan)
        : ranch_(ranch),
          plan_(plan),
          terrain_(ranch.terrain ? Terrain(*ranch.terrain) : Terrain()) {}

    std::vector<BrokenRule> run() {
        for (const PlannedFeeding& feeding : plan_.feedings) {
            if (!ranch_[feeding.pasture].feed) add("feed", ranch_[feeding.pasture].name, 0.0);
            for (const PlannedLine& line : feeding.lines) check_line(feeding, line);
            check_loads(feeding);
        }
        check_spacing();
        check_lots();
        return std::move(broken_);
    }

  private:
    void add(const std::string& rule, const std::string& where, double by) {
        broken_.push_back({rule, where, by});
    }

    void check_line(const PlannedFeeding& feeding, const PlannedLine& line) {
        const Pasture& pasture = ranch_[feeding.pasture];
        const double strip = fence_strip_m(ranch_[feeding.rig], ranch_.settings);
        const WeatherDay* weather = weather_on(ranch_, feeding.date);
        for (const Point p : densified(line.path, kStep_m)) {
            if (!contains(pasture.shape, p)) return add("fence", line.id, 0.0);
            for (const Polyline& fence : boundary_lines(pasture.shape)) {
                const double away = distance_m(p, fence);
                if (away < strip - kTolerance_m) return add("fence_strip", line.id, strip - away);
            }
            if (const auto over = setback_broken(p)) return add("setback", line.id, *over);
            if (const auto gradient = terrain_.gradient(p)) {
                const double over = gradient->slope_ratio() - ranch_.settings.slope_limit_ratio;
                if (over > 0.0) return add("slope", line.id, over);
            }
            if (weather != nullptr && weather->thaw && on_soft(p)) return add("soft", line.id, 0.0);
        }
        check_shape(ranch_[feeding.rig], line);
    }

    std::optional<double> setback_broken(Point p) const {
        for (const OffLimits& place : ranch_.off_limits) {
            double away = std::numeric_limits<double>::infinity();
            if (!place.area.empty()) away = distance_to_shape_m(p, place.area);
            for (const Polyline& line : place.lines) away = std::min(away, distance_m(p, line));
            for (const Point q : place.points) away = std::min(away, distance_m(p, q));
            const bool inside = !place.area.empty() && away <= 0.0;
            if (inside || away < place.setback_m - kTolerance_m) return place.setback_m - away;
        }
        return std::nullopt;
    }

    bool on_soft(Point p) const {
        return std::any_of(ranch_.soft.begin(), ranch_.soft.end(),
                           [&](const SoftGround& soft) { return contains(soft.area, p); });
    }

    void check_shape(const Rig& rig, const PlannedLine& line) {
        const auto radius = line_radius_m(rig, ranch_.settings);
        if (!radius || line.shape == LineShape::straight) {
            const double bow = bow_m(line.path);
            if (bow > kBowLimit_m) add("straight", line.id, bow);
            return;
        }
        const double curvature = max_curvature_per_m(line.path);
        if (curvature * *radius > kCurvatureSlack) add("curvature", line.id, curvature);
    }

    void check_loads(const PlannedFeeding& feeding) {
        if (feeding.lines.empty()) return add("line", ranch_[feeding.herd].name, 0.0);
        int in_loads = 0;
        for (const PlannedLoad& load : feeding.loads) {
            in_loads += load.bale_count;
            if (load.bale_count > ranch_[feeding.rig].bales_per_trip)
                add("capacity", feeding.lines.front().id, load.bale_count);
            for (const BaleDraw& draw : load.bales) {
                if (draw.yard != load.yard) add("one_yard", feeding.lines.front().id, 0.0);
            }
        }
        int drawn = 0;
        for (const BaleDraw& draw : feeding.bales) drawn += draw.count;
        if (drawn != in_loads) add("whole_bales", feeding.lines.front().id, drawn - in_loads);
    }

    bool gave_way() const {
        return std::any_of(plan_.problems.begin(), plan_.problems.end(), [](const Problem& p) {
            return p.code == "spacing_yielded" || p.code == "rest_yielded";
        });
    }

    void check_spacing() {
        if (gave_way()) return;
        const double spacing = ranch_.settings.spacing_m - kTolerance_m;
        std::vector<std::pair<PastureId, const PlannedLine*>> lines;
        for (const PlannedFeeding& feeding : plan_.feedings) {
            for (const PlannedLine& line : feeding.lines)
                lines.emplace_back(feeding.pasture, &line);
        }
        for (std::size_t a = 0; a < lines.size(); ++a) {
            for (std::size_t b = a + 1; b < lines.size(); ++b) {
                if (lines[a].first != lines[b].first) continue;
                if (end_to_end(*lines[a].second, *lines[b].second)) continue;
                const double away = distance_m(lines[a].second->path, lines[b].second->path);
                if (away < spacing)
                    add("spacing", lines[a].second->id + " " + lines[b].second->id, spacing - away);
            }
        }
        check_old_lines(lines, spacing);
    }

    // Loads of one feeding may follow each other along one track.
    static bool end_to_end(const PlannedLine& a, const PlannedLine& b) {
        return a.id.substr(0, a.id.rfind('-')) == b.id.substr(0, b.id.rfind('-'));
    }

    void check_old_lines(const std::vector<std::pair<PastureId, const PlannedLine*>>& lines,
                         double spacing) {
        const int rest = static_cast<int>(ranch_.settings.rest_days);
        const sys_days since = rest > 0 ? plan_.from - std::chrono::days{rest}
                                        : season_start(plan_.from, ranch_.settings.season_start);
        for (const FeedingRecord& old : ranch_.feedings) {
            const auto* laid = std::get_if<MultiPolyline>(&old.shape);
            if (laid == nullptr || old.to < since) continue;
            for (const Polyline& path : *laid) {
                for (const auto& [pasture, line] : lines) {
                    if (pasture != old.pasture) continue;
                    const double away = distance_m(line->path, path);
                    if (away < spacing) add("rest", line->id, spacing - away);
                }
            }
        }
    }

    void check_lots() {
        std::map<std::int32_t, int> drawn;
        for (const PlannedFeeding& feeding : plan_.feedings) {
            for (const BaleDraw& draw : feeding.bales) drawn[draw.lot.value] += draw.count;
        }
        for (const auto& [lot, count] : drawn) {
            const HayLot& from = ranch_.lots[static_cast<std::size_t>(lot)];
            if (count > from.bales) add("lot", from.name, count - from.bales);
        }
    }

    const Ranch& ranch_;
    const Plan& plan_;
    Terrain terrain_;
    std::vector<BrokenRule> broken_;
};

}  // namespace

std::vector<BrokenRule> check_plan(const Ranch& ranch, const Plan& plan) {
    return Checker(ranch, plan).run();
}

}  // namespace haylane
