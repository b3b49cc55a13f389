// The judge of a line is line_faults, as for every other; check_plan's rules of the ground, which
// sample the line, only say which of them it was. Curves get a thousandth of slack in curvature,
// for lines that were kept in degrees and come back rounded.
#include "core/plan/hand_lines.h"

#include "core/lines/curve_runs.h"
#include "core/lines/drivable.h"
#include "core/lines/joins.h"
#include "core/plan/check_plan.h"
#include "core/plan/describe.h"
#include "core/plan/line_clearance.h"
#include "core/plan/load_out.h"
#include "core/plan/share_loads.h"
#include "core/plan/spoken.h"
#include "core/plan/way_time.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kCurvatureSlack = 1.001;
constexpr double kLengthSlack_m = 0.5;  // of a line, as everywhere

Polyline without_repeats(Polyline line) {
    line.erase(std::unique(line.begin(), line.end()), line.end());
    return line;
}

bool bends_gently(const Polyline& line, double radius_m) {
    return max_curvature_per_m(line) * radius_m <= kCurvatureSlack;
}

bool has_close_vertices(const Polyline& line) {
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
        if (distance_m(line[i], line[i + 1]) > kVertexStep_m * kCurvatureSlack) return false;
    return true;
}

// A drawn curve as it can be driven, rounded no more than it needs.
Polyline fit_to_drive(const Polyline& line, double radius_m) {
    if (has_close_vertices(line) && bends_gently(line, radius_m)) return line;
    Polyline smooth;
    for (const double rounding_m : {2.0, 4.0, 8.0, 16.0}) {
        smooth = smoothed(line, rounding_m);
        if (bends_gently(smooth, radius_m)) break;
    }
    return smooth;
}

class Hand {
  public:
    Hand(PlanContext& context, const ScheduledFeeding& feeding, const FeedableGround& ground,
         LineRequest request)
        : context_(context),
          ranch_(context.ranch()),
          feeding_(feeding),
          rig_(ranch_[feeding.rig]),
          request_(std::move(request)),
          ground_(ground) {}

    HandLines run(const MultiPolyline& drawn) {
        count_ = drawn.size();
        std::vector<CandidateLine> lines;
        for (const Polyline& line : drawn) lines.push_back(line_of(without_repeats(line)));
        if (!share(lines)) return std::move(result_);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            judge(lines[i], i);
            judge_rate(lines[i], i);
        }
        judge_order(lines);
        judge_place(lines);
        result_.lines.lines = std::move(lines);
        result_.lines.in_rings = request_.in_rings;
        judge_way();
        return std::move(result_);
    }

  private:
    [[nodiscard]] CandidateLine line_of(Polyline path) const {
        CandidateLine line{.path = std::move(path)};
        line.curved = bow_m(line.path) > kBowLimit_m;
        if (line.curved)
            line.path = fit_to_drive(line.path, request_.line_radius_m);
        else if (line.path.size() > 2)
            line.path = {line.path.front(), line.path.back()};
        line.length_m = length_m(line.path);
        return line;
    }

    // Fills loads, bales and the lay rate.
    bool share(std::vector<CandidateLine>& lines) {
        std::vector<double> lengths;
        for (const CandidateLine& line : lines) lengths.push_back(line.length_m);
        const auto shares = share_loads(feeding_.loads, lengths);
        if (!shares) {
            result_.broken.push_back(fmt::format(
                "{} and {} do not go together: each load needs a line of its own, and each line at "
                "least one whole bale.",
                counted(lines.size(), "line"), counted(feeding_.loads.size(), "load")));
            return false;
        }
        double hay_kg = 0.0;
        for (const ScheduledLoad& load : feeding_.loads) hay_kg += load.hay_kg;
        result_.lay_kg_per_m = hay_kg / std::accumulate(lengths.begin(), lengths.end(), 0.0);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            lines[i].load = (*shares)[i].load;
            lines[i].bales = (*shares)[i].bales;
        }
        return true;
    }

    static std::string counted(std::size_t count, const char* what) {
        return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
    }

    // "The line" or "Line 2".
    [[nodiscard]] std::string name(std::size_t i) const {
        return count_ == 1 ? "The line" : fmt::format("Line {}", i + 1);
    }

    template <class... Parts>
    void broken(fmt::format_string<Parts...> text, Parts&&... parts) {
        result_.broken.push_back(fmt::format(text, std::forward<Parts>(parts)...));
    }
    template <class... Parts>
    void yielded(fmt::format_string<Parts...> text, Parts&&... parts) {
        result_.yielded.push_back(fmt::format(text, std::forward<Parts>(parts)...));
    }

    void judge(const CandidateLine& line, std::size_t i) {
        const LineLimits limits{line.length_m, request_.line_radius_m / kCurvatureSlack,
                                request_.gates, request_.gate_keep_m};
        for (const LineFault fault : line_faults(ground_, line, limits)) {
            if (fault == LineFault::off_ground)
                result_.broken.push_back(name(i) + why_off_ground(line.path));
            else if (fault == LineFault::starts_near_gate)
                yielded("{} starts nearer to a gate than {}.", name(i),
                        spoken_length(request_.gate_keep_m, settings()));
            else
                judge_bend(i);
        }
    }

    // Faults of shape that are left once a line was made fit to drive.
    void judge_bend(std::size_t i) {
        if (request_.in_rings)
            broken("{} bends: a row of rings stands straight.", name(i));
        else if (request_.line_radius_m <= 0.0)
            broken("{} bends, and {} lays straight lines only.", name(i), rig_.name);
        else
            broken("{} bends more sharply than {} can lay: the least radius is {}.", name(i),
                   rig_.name, spoken_length(request_.line_radius_m, settings()));
    }

    [[nodiscard]] std::string why_off_ground(const Polyline& path) const {
        const auto rule = broken_ground_rule(ranch_, context_.terrain(), context_.hand(),
                                             {feeding_.pasture, feeding_.rig, feeding_.date}, path);
        if (!rule)
            return fmt::format(" crosses ground that falls to the side by more than {:.0f} %.",
                               settings().cross_slope_limit_ratio * 100.0);
        if (rule->rule == "feed")
            return fmt::format(" lies in {}, which is not fed in.", rule->what);
        if (rule->rule == "fence") return fmt::format(" leaves {}.", rule->what);
        if (rule->rule == "fence_strip")
            return fmt::format(" comes nearer to a fence than {}.",
                               spoken_length(fence_strip_m(rig_, settings()), settings()));
        if (rule->rule == "setback")
            return fmt::format(" comes within the setback of {}.", rule->what);
        if (rule->rule == "slope")
            return fmt::format(" crosses a slope of {:.0f} %; the limit is {:.0f} %.",
                               rule->by * 100.0, settings().slope_limit_ratio * 100.0);
        if (rule->rule == "soft")
            return fmt::format(" lies on soft ground in a thaw: {}.", rule->what);
        return fmt::format(" lies on ground closed for that day: {}.", rule->what);
    }

    // Rings along a line stand a spacing apart.
    void judge_rings(const CandidateLine& line, std::size_t i) {
        const double least_m = line.bales * request_.spacing_m;
        if (line.length_m >= least_m - kLengthSlack_m) return;
        broken("{} is too short for {} in rings: they stand {} apart, which makes {} here.",
               name(i), counted(static_cast<std::size_t>(line.bales), "bale"),
               spoken_length(request_.spacing_m, settings()), spoken_length(least_m, settings()));
    }

    void judge_rate(const CandidateLine& line, std::size_t i) {
        if (request_.in_rings) return judge_rings(line, i);
        const ScheduledLoad& load = feeding_.loads[static_cast<std::size_t>(line.load)];
        const double hay_kg = load.hay_kg / load.bales * line.bales;
        const bool thick = hay_kg > rig_.lay_kg_per_m_max * (line.length_m + kLengthSlack_m);
        const bool thin = hay_kg < rig_.lay_kg_per_m_min * (line.length_m - kLengthSlack_m);
        if (!thick && !thin) return;
        const double limit = thick ? rig_.lay_kg_per_m_max : rig_.lay_kg_per_m_min;
        broken("{} is too {} for {}: {} lays {} at {}, which makes {} here.", name(i),
               thick ? "short" : "long", counted(static_cast<std::size_t>(line.bales), "bale"),
               rig_.name, spoken_lay_rate(limit, settings()), thick ? "most" : "least",
               spoken_length(hay_kg / limit, settings()));
    }

    // Habits among the feeding's own lines.
    void judge_order(const std::vector<CandidateLine>& lines) {
        MultiPolyline laid;
        for (std::size_t i = 1; i < lines.size(); ++i) {
            laid.push_back(lines[i - 1].path);
            if (lines[i].load == lines[i - 1].load) judge_join(laid, lines[i].path, i);
            for (std::size_t k = 0; k < i; ++k) {
                if (go_on(lines[k].path, lines[i].path)) continue;
                if (clearance(lines[k].path, lines[i].path, request_.spacing_m) != Clearance::clear)
                    yielded("Lines {} and {} lie closer than {}.", k + 1, i + 1,
                            spoken_length(request_.spacing_m, settings()));
            }
        }
    }

    // How much of what weather and calving ask of the ground the lines keep.
    void judge_place(const std::vector<CandidateLine>& lines) {
        GroundNeed asked = ground_need(ranch_, feeding_.herd, feeding_.date);
        asked.off_gates = false;  // judged at the start, as for every line
        for (const GroundNeed& need : as_it_yields(asked)) {
            const auto ground = context_.feedable(feeding_.pasture, rig_, feeding_.date, need);
            const bool kept =
                ground && std::all_of(lines.begin(), lines.end(), [&](const CandidateLine& line) {
                    return (*ground)->region.covers(line.path);
                });
            if (!kept) continue;
            result_.ground = need;
            break;
        }
        if (asked.lee_of_rad && !result_.ground.lee_of_rad)
            yielded("It lies out in a cold {} wind.", compass_word(*asked.lee_of_rad));
        if (asked.fresh_since && !result_.ground.fresh_since)
            yielded("It lies on or by ground fed on this winter, and cows are calving.");
    }

    void judge_join(const MultiPolyline& laid, const Polyline& next, std::size_t i) {
        const auto way = join(laid.back(), next, laid, request_.turn_radius_m, *request_.drivable);
        if (way)
            result_.lines.joins_m += length_m(*way);
        else
            yielded("There is no room to turn forward from line {} to line {}, off hay just laid.",
                    i, i + 1);
    }

    // Whether one line goes on where the other ends.
    static bool go_on(const Polyline& a, const Polyline& b) {
        return std::min({distance_m(a.back(), b.front()), distance_m(a.front(), b.back()),
                         distance_m(a.front(), b.front()), distance_m(a.back(), b.back())}) <=
               kLengthSlack_m;
    }

    void judge_way() {
        const TravelMap& travel = context_.travel(feeding_.date, rig_);
        const auto yards = yards_of(feeding_.loads);
        result_.way_s = way_time_s(travel, feeding_.pasture, yards, result_.lines);
        if (std::isfinite(result_.way_s)) return;
        result_.broken.push_back(travel.why_not(yards.front(), feeding_.pasture, feeding_.date));
    }

    [[nodiscard]] const Settings& settings() const { return ranch_.settings; }

    PlanContext& context_;
    const Ranch& ranch_;
    const ScheduledFeeding& feeding_;
    const Rig& rig_;
    LineRequest request_;
    const FeedableGround& ground_;
    std::size_t count_ = 0;
    HandLines result_;
};

}  // namespace

Result<HandLines> hand_lines(PlanContext& context, const ScheduledFeeding& feeding,
                             const MultiPolyline& drawn) {
    const auto ground =
        context.feedable(feeding.pasture, context.ranch()[feeding.rig], feeding.date);
    if (!ground) return fail(ground.error());
    LinesAsked asked = lines_asked(context.ranch(), feeding, 1.0);
    asked.forward_turns = true;
    asked.ground = {};
    auto request = context.line_request(asked);
    if (!request) return fail(request.error());
    return Hand(context, feeding, **ground, std::move(*request)).run(drawn);
}

std::optional<PastureId> pasture_under(const Ranch& ranch, const MultiPolyline& lines) {
    if (lines.empty() || lines.front().empty()) return std::nullopt;
    const Point middle = point_at(lines.front(), length_m(lines.front()) / 2.0);
    for (std::size_t p = 0; p < ranch.pastures.size(); ++p)
        if (contains(ranch.pastures[p].shape, middle)) return PastureId::at(p);
    return std::nullopt;
}

}  // namespace haylane
