#include "core/plan/check_plan.h"

#include "core/geometry/boolean_ops.h"
#include "core/ground/terrain.h"
#include "core/plan/check_limits.h"

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

// What the ground of one pasture, rig and day asks of a line.
class GroundRules {
  public:
    GroundRules(const Ranch& ranch, const Terrain& terrain, const UserHand& hand,
                const LinePlace& place)
        : ranch_(ranch),
          terrain_(terrain),
          pasture_(ranch[place.pasture]),
          fences_(boundary_lines(pasture_.shape)),
          strip_m_(fence_strip_m(ranch[place.rig], ranch.settings)),
          thaw_(thaws_on(ranch, place.date)),
          closed_(forbidden_on(hand, place.pasture, place.date)) {}

    [[nodiscard]] std::optional<BrokenRule> broken_by(const Polyline& line) const {
        if (!pasture_.feed) return broken("feed", 0.0, pasture_.name);
        for (const Point p : densified(line, kStep_m)) {
            if (auto rule = broken_at(p)) return rule;
        }
        return std::nullopt;
    }

  private:
    static BrokenRule broken(const char* rule, double by, const std::string& what) {
        return {rule, "", by, what};
    }

    [[nodiscard]] std::optional<BrokenRule> broken_at(Point p) const {
        if (!contains(pasture_.shape, p)) return broken("fence", 0.0, pasture_.name);
        for (const Polyline& fence : fences_) {
            const double away = distance_m(p, fence);
            if (away < strip_m_ - kTolerance_m)
                return broken("fence_strip", strip_m_ - away, pasture_.name);
        }
        if (auto setback = broken_setback(p)) return setback;
        const auto gradient = terrain_.gradient(p);
        if (gradient && gradient->slope_ratio() > ranch_.settings.slope_limit_ratio)
            return broken("slope", gradient->slope_ratio(), "");
        for (const SoftGround& soft : ranch_.soft) {
            if (thaw_ && contains(soft.area, p)) return broken("soft", 0.0, soft.name);
        }
        return broken_closed(p);
    }

    [[nodiscard]] std::optional<BrokenRule> broken_setback(Point p) const {
        for (const OffLimits& place : ranch_.off_limits) {
            double away = std::numeric_limits<double>::infinity();
            if (!place.area.empty()) away = distance_to_shape_m(p, place.area);
            for (const Polyline& line : place.lines) away = std::min(away, distance_m(p, line));
            for (const Point q : place.points) away = std::min(away, distance_m(p, q));
            const bool inside = !place.area.empty() && away <= 0.0;
            if (inside || away < place.setback_m - kTolerance_m)
                return broken("setback", place.setback_m - away, place.name);
        }
        return std::nullopt;
    }

    // A line may run along the edge of closed ground.
    [[nodiscard]] std::optional<BrokenRule> broken_closed(Point p) const {
        for (const ForbiddenGround* ground : closed_) {
            if (!contains(ground->area, p)) continue;
            double inside_m = std::numeric_limits<double>::infinity();
            for (const Polyline& edge : boundary_lines(ground->area))
                inside_m = std::min(inside_m, distance_m(p, edge));
            if (inside_m > kTolerance_m) return broken("closed", inside_m, ground->name);
        }
        return std::nullopt;
    }

    const Ranch& ranch_;
    const Terrain& terrain_;
    const Pasture& pasture_;
    MultiPolyline fences_;
    double strip_m_;
    bool thaw_;
    std::vector<const ForbiddenGround*> closed_;
};

class Checker {
  public:
    Checker(const Ranch& ranch, const Plan& plan, const UserHand& hand)
        : ranch_(ranch),
          plan_(plan),
          hand_(hand),
          terrain_(ranch.terrain ? Terrain(*ranch.terrain) : Terrain()) {}

    std::vector<BrokenRule> run() {
        for (const PlannedFeeding& feeding : plan_.feedings) {
            for (const PlannedLine& line : feeding.lines) {
                if (feeding.in_rings)
                    check_places(feeding, line);
                else
                    check_line(feeding, line);
            }
            check_loads(feeding);
        }
        check_spacing();
        check_lots();
        return std::move(broken_);
    }

  private:
    void add(const std::string& rule, const std::string& where, double by) {
        broken_.push_back({rule, where, by, ""});
    }

    // A ring stands by the rules of the ground, off gates, one a bale.
    void check_places(const PlannedFeeding& feeding, const PlannedLine& row) {
        const LinePlace place{feeding.pasture, feeding.rig, feeding.date};
        if (row.places.size() != static_cast<std::size_t>(row.bales))
            add("places", row.id, static_cast<double>(row.places.size()) - row.bales);
        for (const Point at : row.places) {
            if (auto broken = broken_ground_rule(ranch_, terrain_, hand_, place, {at})) {
                broken->where = row.id;
                broken_.push_back(std::move(*broken));
            }
            if (feeding.by_hand != ByHand::held) check_gates(at, row.id);
        }
    }

    void check_gates(Point at, const std::string& where) {
        const double keep_m = ranch_.settings.gate_keep_m - kTolerance_m;
        for (const Gate& gate : ranch_.gates)
            if (distance_m(gate.at, at) < keep_m)
                add("gate", where, keep_m - distance_m(gate.at, at));
    }

    void check_line(const PlannedFeeding& feeding, const PlannedLine& line) {
        const LinePlace place{feeding.pasture, feeding.rig, feeding.date};
        if (auto broken = broken_ground_rule(ranch_, terrain_, hand_, place, line.path)) {
            broken->where = line.id;
            broken_.push_back(std::move(*broken));
            return;
        }
        check_shape(ranch_[feeding.rig], line);
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
        const std::vector<Spaced> lines = spaced();
        for (std::size_t a = 0; a < lines.size(); ++a) {
            for (std::size_t b = a + 1; b < lines.size(); ++b) {
                if (lines[a].feeding->pasture != lines[b].feeding->pasture) continue;
                // Loads of one feeding may follow each other along one track.
                if (lines[a].feeding == lines[b].feeding && !lines[a].feeding->in_rings) continue;
                const double away = distance_m(lines[a].path, lines[b].path);
                if (away < spacing) add("spacing", lines[a].id + " " + lines[b].id, spacing - away);
            }
        }
        check_old_lines(lines, spacing);
    }

    // What keeps a spacing: a line, or one place of a row of rings.
    struct Spaced {
        const PlannedFeeding* feeding = nullptr;
        std::string id;
        Polyline path;
    };
    [[nodiscard]] std::vector<Spaced> spaced() const {
        std::vector<Spaced> all;
        for (const PlannedFeeding& feeding : plan_.feedings) {
            for (const PlannedLine& line : feeding.lines) {
                if (!feeding.in_rings) all.push_back({&feeding, line.id, line.path});
                for (const Point place : line.places) all.push_back({&feeding, line.id, {place}});
            }
        }
        return all;
    }

    void check_old_lines(const std::vector<Spaced>& lines, double spacing) {
        const int rest = static_cast<int>(ranch_.settings.rest_days);
        const sys_days since = rest > 0 ? plan_.from - std::chrono::days{rest}
                                        : season_start(plan_.from, ranch_.settings.season_start);
        for (const FeedingRecord& old : ranch_.feedings) {
            if (old.to < since) continue;
            for (const Polyline& path : laid_on(old)) {
                for (const Spaced& line : lines) {
                    if (line.feeding->pasture != old.pasture) continue;
                    const double away = distance_m(line.path, path);
                    if (away < spacing) add("rest", line.id, spacing - away);
                }
            }
        }
    }

    // Lines, or places as lines of one point.
    static MultiPolyline laid_on(const FeedingRecord& old) {
        if (const auto* lines = std::get_if<MultiPolyline>(&old.shape)) return *lines;
        MultiPolyline places;
        if (const auto* points = std::get_if<std::vector<Point>>(&old.shape))
            for (const Point p : *points) places.push_back({p});
        return places;
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
    const UserHand& hand_;
    Terrain terrain_;
    std::vector<BrokenRule> broken_;
};

}  // namespace

std::optional<BrokenRule> broken_ground_rule(const Ranch& ranch, const Terrain& terrain,
                                             const UserHand& hand, const LinePlace& place,
                                             const Polyline& line) {
    return GroundRules(ranch, terrain, hand, place).broken_by(line);
}

std::vector<BrokenRule> check_plan(const Ranch& ranch, const Plan& plan, const UserHand& hand) {
    std::vector<BrokenRule> broken = Checker(ranch, plan, hand).run();
    const std::vector<BrokenRule> limits = broken_limits(ranch, plan);
    broken.insert(broken.end(), limits.begin(), limits.end());
    return broken;
}

}  // namespace haylane
