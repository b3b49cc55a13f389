// A day takes up where the last one stopped: on the same swath when a spacing and the next piece
// still fit, else on the next swath. A day whose lines cannot be driven in a good order (a start
// too near a gate) leaves the swath it began on and tries the next.
#include "core/lines/site_lines.h"

#include "core/base/units.h"
#include "core/lines/headings.h"
#include "core/lines/loads.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace haylane {

namespace {

constexpr double kTrim_m = 0.01;  // taken off both ends of every span
constexpr double kParallel_rad = 3.0 * units::kPi / 180.0;
constexpr double kBow_m = 0.3;
constexpr double kLeastStep_m = 1.0;

// Where the next line may begin.
struct Place {
    int swath = 0;
    double along_m = 0.0;
};

class Filler {
  public:
    explicit Filler(const Site& site)
        : site_(&site),
          ahead_(along_azimuth(site.azimuth_rad)),
          right_(right_of(site.azimuth_rad)) {}

    // The day's lines from `place` on, which is moved behind them; nullopt when they do not fit.
    std::optional<Candidate> lay(const SiteDay& day, Place& place) const {
        for (Place from = place; from.swath < site_->swaths; from = {from.swath + 1, 0.0}) {
            Place at = from;
            auto lines = lines_from(day, at);
            if (lines.empty()) return std::nullopt;
            auto ordered = in_driving_order(std::move(lines), *day.request);
            if (!ordered) continue;
            place = {at.swath, at.along_m + day.request->spacing_m};
            return ordered;
        }
        return std::nullopt;
    }

  private:
    // All loads, or nothing.
    std::vector<CandidateLine> lines_from(const SiteDay& day, Place& at) const {
        LoadQueue queue(day.request->loads, site_->room_m);
        std::vector<CandidateLine> lines;
        while (at.swath < site_->swaths) {
            fill_swath(day, queue, at, lines);
            if (queue.done()) return lines;
            at = {at.swath + 1, 0.0};
        }
        return {};
    }

    void fill_swath(const SiteDay& day, LoadQueue& queue, Place& at,
                    std::vector<CandidateLine>& lines) const {
        const bool away = at.swath % 2 == 0;  // back and forth
        for (const Region::Span& span :
             day.ground->allowed_spans(point(at.swath, 0.0), point(at.swath, site_->room_m))) {
            double u = std::max(span.from_m + kTrim_m, at.along_m);
            const double end = span.to_m - kTrim_m;
            while (!queue.done()) {
                const auto piece = queue.fitting(end - u);
                if (!piece) break;
                Point from = point(at.swath, u);
                Point to = point(at.swath, u + piece->length_m);
                if (!away) std::swap(from, to);
                lines.push_back({{from, to}, false, piece->length_m, piece->load, piece->bales});
                queue.take(*piece);
                u += piece->length_m;
                at.along_m = u;
            }
            if (queue.done()) return;
        }
    }

    [[nodiscard]] Point point(int swath, double along_m) const {
        return site_->corner + ahead_ * along_m + right_ * (site_->step_m * swath);
    }

    const Site* site_;
    Point ahead_;
    Point right_;
};

// Extent of the ground with x along the heading and y to its right.
Box turned_box(const MultiPolygon& shape, Point ahead, Point right) {
    Box box;
    for (const Polygon& part : shape)
        for (const Point p : part.outer) box.add({dot(p, ahead), dot(p, right)});
    return box;
}

std::vector<Site> blocks_along(const FeedableGround& ground, const Heading& heading,
                               const SiteOptions& options) {
    const Point ahead = along_azimuth(heading.azimuth_rad);
    const Point right = right_of(heading.azimuth_rad);
    const Box box = turned_box(ground.region.shape(), ahead, right);
    const double room = options.room_m + 3.0 * kTrim_m;
    const double width = options.spacing_m * (options.swaths - 1);
    const double across = std::max(options.spacing_m, width / 2.0);
    // Swaths stand a whole number of spacings from the edge the heading runs along.
    const double first =
        heading.anchor_m +
        options.spacing_m * std::ceil((box.min_y - heading.anchor_m) / options.spacing_m);
    std::vector<Site> found;
    for (double y = first; y <= box.max_y; y += across) {
        for (double x = box.min_x + kTrim_m; x < box.max_x; x += room / 2.0) {
            const Point corner = ahead * x + right * y;
            const Point far = corner + right * width;
            found.push_back({heading.azimuth_rad, corner, room, options.spacing_m, options.swaths});
            if (width > 0.0)
                found.push_back(
                    {heading.azimuth_rad, far, room, -options.spacing_m, options.swaths});
        }
    }
    return found;
}

bool begins_on(const FeedableGround& ground, const Site& site, double least_m) {
    const Point end = site.corner + along_azimuth(site.azimuth_rad) * site.room_m;
    const auto spans = ground.allowed_spans(site.corner, end);
    return std::any_of(spans.begin(), spans.end(), [&](const Region::Span& span) {
        return span.to_m - span.from_m >= least_m;
    });
}

template <class T>
std::vector<T> thinned(const std::vector<T>& all, std::size_t most) {
    if (all.size() <= most) return all;
    std::vector<T> kept;
    for (std::size_t i = 0; i < most; ++i) kept.push_back(all[i * all.size() / most]);
    return kept;
}

}  // namespace

SiteRun fill_site(const Site& site, const std::vector<SiteDay>& days) {
    const Filler filler(site);
    SiteRun run;
    Place place;
    for (const SiteDay& day : days) {
        auto laid = filler.lay(day, place);
        if (!laid) break;
        run.days.push_back(std::move(*laid));
    }
    return run;
}

std::vector<Site> sites_on(const FeedableGround& ground, const SiteOptions& options) {
    if (ground.region.empty() || options.room_m <= 0.0 || options.most < 1) return {};
    SiteOptions sound = options;
    sound.spacing_m = std::max(options.spacing_m, kLeastStep_m);
    sound.swaths = std::max(1, options.swaths);
    std::vector<Site> all;
    for (const Heading& heading : line_headings(ground.region.shape(), options.heading_step_rad)) {
        const std::vector<Site> along = blocks_along(ground, heading, sound);
        all.insert(all.end(), along.begin(), along.end());
    }
    // Many blocks of a ragged ground begin outside it: ask about some more than are wanted.
    constexpr std::size_t kAsked = 6;
    all = thinned(all, kAsked * static_cast<std::size_t>(options.most));
    std::erase_if(all,
                  [&](const Site& site) { return !begins_on(ground, site, 0.5 * options.room_m); });
    return thinned(all, static_cast<std::size_t>(options.most));
}

std::vector<Site> sites_beside(const MultiPolyline& last, const SiteOptions& options) {
    if (last.empty() || last.front().size() < 2) return {};
    const double azimuth = azimuth_rad(last.front().front(), last.front().back());
    const Point ahead = along_azimuth(azimuth);
    const Point right = right_of(azimuth);
    Box box;
    for (const Polyline& line : last) {
        if (line.size() < 2 || bow_m(line) > kBow_m) return {};
        const double own = azimuth_rad(line.front(), line.back());
        if (std::abs(std::remainder(own - azimuth, units::kPi)) > kParallel_rad) return {};
        for (const Point p : line) box.add({dot(p, ahead), dot(p, right)});
    }
    const double room = std::max(options.room_m, box.max_x - box.min_x) + 3.0 * kTrim_m;
    const auto block = [&](double y, double step) {
        return Site{azimuth, ahead * (box.min_x - kTrim_m) + right * y, room, step,
                    std::max(1, options.swaths)};
    };
    return {block(box.max_y + options.spacing_m, options.spacing_m),
            block(box.min_y - options.spacing_m, -options.spacing_m)};
}

}  // namespace haylane
