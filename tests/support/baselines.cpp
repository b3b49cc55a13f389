#include "tests/support/baselines.h"

#include "core/base/units.h"
#include "core/deposit/evenness.h"
#include "core/plan/plan_objective.h"
#include "core/plan/way_time.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <numbers>

namespace haylane::testing {
namespace {

std::vector<YardId> yards_of(const ScheduledFeeding& feeding) {
    std::vector<YardId> yards;
    for (const ScheduledLoad& load : feeding.loads) yards.push_back(load.yard);
    return yards;
}

double way_s(KeptPlan& plan, std::size_t f, const Candidate& lines) {
    const ScheduledFeeding& feeding = plan.schedule.feedings[f];
    const TravelMap& travel =
        plan.context->travel(feeding.date, plan.context->ranch()[feeding.rig]);
    return way_time_s(travel, feeding.pasture, yards_of(feeding), lines);
}

const Candidate& nearest(const KeptPlan& plan, std::size_t f) {
    const ScheduledFeeding& feeding = plan.schedule.feedings[f];
    const std::vector<double>& times = *feeding.way_s;
    const auto at = std::min_element(times.begin(), times.end()) - times.begin();
    return (*feeding.candidates)[static_cast<std::size_t>(at)];
}

template <class T>
T taken(Result<T> result) {
    if (result) return std::move(*result);
    std::fprintf(stderr, "baselines: %s %s\n", result.error().what.c_str(),
                 result.error().where.c_str());
    std::abort();
}

// Straight lines of few headings, at full density, for a feeding's loads.
std::vector<Candidate> strips_for(KeptPlan& plan, const ScheduledFeeding& feeding) {
    const Candidate& like = feeding.candidates->front();
    LinesAsked asked{.pasture = feeding.pasture,
                     .rig = &plan.context->ranch()[feeding.rig],
                     .date = feeding.date,
                     .ground = feeding.ground,
                     .loads = {}};
    for (std::size_t load = 0; load < feeding.loads.size(); ++load) {
        double length_m = 0.0;
        for (const CandidateLine& line : like.lines)
            if (line.load == static_cast<int>(load)) length_m += line.length_m;
        asked.loads.push_back({feeding.loads[load].bales, length_m});
    }
    LineRequest request = taken(plan.context->line_request(asked));
    request.heading_step_rad = std::numbers::pi;
    request.max_candidates = 3000;
    const FeedableGround* ground =
        taken(plan.context->feedable(feeding.pasture, *asked.rig, feeding.date, feeding.ground));
    std::vector<Candidate> strips = candidate_lines(*ground, request);
    std::erase_if(strips, [](const Candidate& c) { return c.family != LineFamily::straight; });
    return strips;
}

double heading_of(const Candidate& lines) {
    const Polyline& path = lines.lines.front().path;
    const double azimuth = azimuth_rad(path.front(), path.back());
    return std::fmod(azimuth + 2.0 * std::numbers::pi, std::numbers::pi);
}

// Where the lines lie across a heading.
struct Across {
    double least_m = std::numeric_limits<double>::infinity();
    double most_m = -std::numeric_limits<double>::infinity();
};

Across across(const Candidate& lines, double heading_rad) {
    const Point ahead = along_azimuth(heading_rad);
    const Point right{ahead.y, -ahead.x};
    Across found;
    for (const CandidateLine& line : lines.lines) {
        for (const Point p : line.path) {
            found.least_m = std::min(found.least_m, dot(p, right));
            found.most_m = std::max(found.most_m, dot(p, right));
        }
    }
    return found;
}

bool clear_of(const Candidate& lines, const std::vector<Candidate>& laid, double spacing_m) {
    for (const Candidate& other : laid)
        for (const CandidateLine& a : lines.lines)
            for (const CandidateLine& b : other.lines)
                if (distance_m(a.path, b.path, spacing_m) < 0.99 * spacing_m) return false;
    return true;
}

// Walks over the pasture strip by strip.
class Walk {
  public:
    explicit Walk(KeptPlan& plan)
        : plan_(&plan), spacing_m_(plan.context->ranch().settings.spacing_m) {}

    StripLines run() {
        for (std::size_t f = 0; f < plan_->schedule.feedings.size(); ++f) {
            auto next = take(f);
            if (!next) {
                ++result_.skipped;
                next = nearest(*plan_, f);
            }
            laid_.push_back(*next);
            result_.lines.push_back(std::move(*next));
        }
        return std::move(result_);
    }

  private:
    std::optional<Candidate> take(std::size_t f) {
        const auto strips = strips_for(*plan_, plan_->schedule.feedings[f]);
        if (!begun_) begin(f, strips);
        constexpr double kFirst = -std::numeric_limits<double>::infinity();
        auto next = first_beyond(f, strips, reached_m_);
        if (!next) next = first_beyond(f, strips, kFirst);
        if (!next) {  // all is full: over it again
            laid_.clear();
            next = first_beyond(f, strips, kFirst);
        }
        if (next) reached_m_ = across(*next, heading_rad_).most_m;
        return next;
    }

    void begin(std::size_t f, const std::vector<Candidate>& strips) {
        begun_ = true;
        double least = std::numeric_limits<double>::infinity();
        for (const Candidate& one : strips) {
            const double time = way_s(*plan_, f, one);
            if (time >= least) continue;
            least = time;
            heading_rad_ = heading_of(one);
            reached_m_ = across(one, heading_rad_).least_m - spacing_m_;
        }
    }

    // The first strip a spacing beyond `from_m`, and of its pieces the nearest.
    std::optional<Candidate> first_beyond(std::size_t f, const std::vector<Candidate>& strips,
                                          double from_m) {
        constexpr double kSame_m = 0.5;
        const Candidate* best = nullptr;
        double best_m = std::numeric_limits<double>::infinity();
        double best_s = std::numeric_limits<double>::infinity();
        for (const Candidate& one : strips) {
            const double turn = std::abs(std::sin(heading_of(one) - heading_rad_));
            const double at_m = across(one, heading_rad_).least_m;
            if (turn > 0.01 || at_m < from_m + 0.99 * spacing_m_ || at_m > best_m + kSame_m)
                continue;
            const double time = way_s(*plan_, f, one);
            if (!std::isfinite(time) || (at_m > best_m - kSame_m && time >= best_s)) continue;
            if (!clear_of(one, laid_, spacing_m_)) continue;
            best = &one;
            best_m = at_m;
            best_s = time;
        }
        if (best == nullptr) return std::nullopt;
        return *best;
    }

    KeptPlan* plan_;
    double spacing_m_;
    bool begun_ = false;
    double heading_rad_ = 0.0;
    double reached_m_ = 0.0;
    std::vector<Candidate> laid_;
    StripLines result_;
};

}  // namespace

std::vector<Candidate> planned_lines(const KeptPlan& plan) {
    std::vector<Candidate> lines;
    for (const PlacedLines& placed : plan.placement.feedings) lines.push_back(placed.lines);
    return lines;
}

std::vector<Candidate> gate_lines(const KeptPlan& plan) {
    std::vector<Candidate> lines;
    for (std::size_t f = 0; f < plan.schedule.feedings.size(); ++f)
        lines.push_back(nearest(plan, f));
    return lines;
}

StripLines strip_lines(KeptPlan& plan) { return Walk(plan).run(); }

WayOfFeeding evaluated(KeptPlan& plan, const std::vector<Candidate>& lines) {
    const ChoiceModel& model = plan.placement.model;
    WayOfFeeding way;
    const auto residual = residuals(model, plan.placement.input, lines);
    way.objective = square_of(model, residual);
    way.cv = cv_of(model, residual);
    Raster<double> load = residual.front();
    for (std::size_t c = 0; c < load.values.size(); ++c)
        load.values[c] += model.grounds.front().level_kg.values[c];
    const auto even = evenness(target_values(*model.grounds.front().ground, load));
    way.cu = even ? even->cu_ratio : 0.0;
    way.cost = 0.0;
    DaysWork work;
    for (std::size_t f = 0; f < lines.size(); ++f) {
        const ScheduledFeeding& feeding = plan.schedule.feedings[f];
        way.objective += model.cost_per_money * way_s(plan, f, lines[f]);
        const PlannedFeeding planned = taken(planned_feeding(
            *plan.context, feeding, {.lines = lines[f]}, plan.ground_seen(feeding.pasture), work));
        for (const PlannedLoad& load_driven : planned.loads) {
            way.distance_m += load_driven.distance_m;
            way.time_s += load_driven.time_s;
            if (!load_driven.cost) way.cost.reset();
            if (way.cost) *way.cost += *load_driven.cost;
        }
    }
    return way;
}

}  // namespace haylane::testing
