// A day takes up where the last one stopped: on the same swath when a spacing and the next piece
// still fit, else on the next swath. A day whose lines cannot be driven in a good order (a start
// too near a gate, no room to turn from line to line) leaves the swath it began on and tries the
// next.
#include "core/lines/site_lines.h"

#include "core/base/parallel.h"
#include "core/base/units.h"
#include "core/lines/headings.h"
#include "core/lines/joins.h"
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
constexpr int kMostSkipped = 2;  // swaths without room between one line and the next
constexpr int kPhases = 4;       // of the windows along the swaths

// Where the next line may begin.
struct Place {
    int swath = 0;
    double along_m = 0.0;
    int last_used = -1;  // swath with the last line; -1 before the first
};

class Filler {
  public:
    explicit Filler(const Site& site)
        : site_(&site),
          ahead_(along_azimuth(site.azimuth_rad)),
          right_(right_of(site.azimuth_rad)) {}

    // The day's lines from `place` on, which is moved behind them; nullopt when they do not fit.
    std::optional<Candidate> lay(const SiteDay& day, Place& place) const {
        for (Place from = place; is_open(from); from = {from.swath + 1, 0.0, from.last_used}) {
            Place at = from;
            auto lines = lines_from(day, at);
            if (lines.empty()) return std::nullopt;
            auto ordered = in_driving_order(std::move(lines), *day.request);
            if (ordered) ordered = joined(*ordered, *day.request);
            if (!ordered) continue;
            place = {at.swath, at.along_m + day.request->spacing_m, at.swath};
            return ordered;
        }
        return std::nullopt;
    }

  private:
    // All loads, or nothing.
    std::vector<CandidateLine> lines_from(const SiteDay& day, Place& at) const {
        LoadQueue queue(day.request->loads, site_->room_m);
        std::vector<CandidateLine> lines;
        while (is_open(at)) {
            const std::size_t before = lines.size();
            fill_swath(day, queue, at, lines);
            if (queue.done()) return lines;
            if (lines.size() > before) at.last_used = at.swath;
            at = {at.swath + 1, 0.0, at.last_used};
        }
        return {};
    }

    // In the block, and still beside the last line.
    [[nodiscard]] bool is_open(const Place& place) const {
        return place.swath < site_->swaths &&
               (place.last_used < 0 || place.swath - place.last_used <= kMostSkipped + 1);
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

// One way to cut a ground: swaths at one heading, windows along them from one phase on.
struct Tiling {
    double azimuth_rad = 0.0;
    double first_y = 0.0;                   // of swath 0, along right_of
    double first_x = 0.0;                   // of window 0, along the heading
    double pitch_m = 0.0;                   // from window to window
    double lines = 0.0;                     // how many it has room for
    std::vector<std::vector<double>> room;  // by swath, by window: room for lines, 0 to 1
};

double overlap_m(const Region::Span& span, double from, double to) {
    return std::min(span.to_m, to) - std::max(span.from_m, from);
}

// 1 for a whole line, half its share for half a line or more, else nothing.
double window_room(const std::vector<Region::Span>& spans, double from, double room_m) {
    double longest = 0.0;
    for (const Region::Span& span : spans)
        longest = std::max(longest, overlap_m(span, from, from + room_m));
    if (longest >= room_m - kTrim_m) return 1.0;
    return longest >= 0.5 * room_m ? 0.5 * longest / room_m : 0.0;
}

struct Windows {
    double first_x = 0.0;
    double pitch_m = 0.0;
};

// First as many as fit, with what is left over shared among the gaps, which is the most even; then
// close together from a few phases, for ground that is cut up.
std::vector<Windows> windows_along(const Box& box, const SiteOptions& options) {
    const double close = options.room_m + options.spacing_m;
    const double extent = box.max_x - box.min_x;
    std::vector<Windows> all;
    const double fit = std::floor((extent + options.spacing_m) / close);
    if (fit >= 1.0) {
        const double pitch = extent / fit;
        all.push_back({box.min_x + (pitch - options.room_m) / 2.0, std::max(pitch, close)});
        if (pitch < close) all.back().first_x = box.min_x;
    }
    for (int phase = 0; phase < kPhases; ++phase)
        all.push_back({box.min_x - close * phase / kPhases, close});
    return all;
}

std::vector<Region::Span> kept_from_ends(std::vector<Region::Span> spans, double keep_m) {
    for (Region::Span& span : spans) {
        span.from_m += keep_m;
        span.to_m -= keep_m;
    }
    std::erase_if(spans, [](const Region::Span& span) { return span.from_m >= span.to_m; });
    return spans;
}

// The best of a few ways at one heading.
Tiling tiling_at(const FeedableGround& ground, const Heading& heading, const SiteOptions& options) {
    const Point ahead = along_azimuth(heading.azimuth_rad);
    const Point right = right_of(heading.azimuth_rad);
    const Box box = turned_box(ground.region.shape(), ahead, right);
    const double spacing = options.spacing_m;
    const double first_y =
        heading.anchor_m + spacing * std::ceil((box.min_y - heading.anchor_m) / spacing);
    std::vector<std::vector<Region::Span>> spans;  // along the heading, from box.min_x
    const int rows = static_cast<int>(std::floor((box.max_y - first_y) / spacing)) + 1;
    for (int k = 0; k < rows; ++k) {
        const double y = first_y + spacing * k;
        spans.push_back(kept_from_ends(
            ground.allowed_spans(ahead * box.min_x + right * y, ahead * box.max_x + right * y),
            options.end_keep_m));
    }
    Box inner = box;
    inner.min_x += options.end_keep_m;
    inner.max_x -= options.end_keep_m;
    Tiling best;
    for (const auto& [first_x, pitch] : windows_along(inner, options)) {
        Tiling tiling{heading.azimuth_rad, first_y, first_x, pitch, 0.0, {}};
        for (const auto& row : spans) {
            std::vector<double> windows;
            const int count =
                std::max(0, static_cast<int>(std::ceil((inner.max_x - first_x) / pitch)));
            for (int w = 0; w < count; ++w) {
                const double x = first_x + pitch * w;
                windows.push_back(window_room(row, x - box.min_x, options.room_m));
                tiling.lines += windows.back();
            }
            tiling.room.push_back(std::move(windows));
        }
        if (tiling.lines > best.lines) best = std::move(tiling);
    }
    return best;
}

std::vector<Site> blocks_of(const Tiling& tiling, const SiteOptions& options) {
    const Point ahead = along_azimuth(tiling.azimuth_rad);
    const Point right = right_of(tiling.azimuth_rad);
    const auto rows = static_cast<int>(tiling.room.size());
    std::vector<Site> found;
    for (int row = 0; row < rows; row += options.swaths) {
        const int end = std::min(rows, row + options.swaths);
        for (std::size_t w = 0; w < tiling.room.front().size(); ++w) {
            int first = row;
            int last = end - 1;
            const auto is_shut = [&](int k) {
                return tiling.room[static_cast<std::size_t>(k)][w] <= 0.0;
            };
            while (first <= last && is_shut(first)) ++first;
            while (last > first && is_shut(last)) --last;
            if (first > last) continue;
            const Point near = ahead * (tiling.first_x + tiling.pitch_m * static_cast<double>(w)) +
                               right * (tiling.first_y + options.spacing_m * first);
            const Point far = near + right * (options.spacing_m * (last - first));
            const int swaths = last - first + 1;
            found.push_back({tiling.azimuth_rad, near, options.room_m, options.spacing_m, swaths});
            found.push_back({tiling.azimuth_rad, far, options.room_m, -options.spacing_m, swaths});
        }
    }
    return found;
}

}  // namespace

std::vector<Candidate> fill_site(const Site& site, const std::vector<SiteDay>& days,
                                 const SiteTaken& taken) {
    const Filler filler(site);
    std::vector<Candidate> run;
    Place place;
    for (const SiteDay& day : days) {
        auto laid = filler.lay(day, place);
        while (laid && taken && taken(run.size(), *laid)) laid = filler.lay(day, place);
        if (!laid) break;
        laid->family = LineFamily::site;
        run.push_back(std::move(*laid));
    }
    return run;
}

std::optional<int> swath_at(const Site& site, Point place) {
    const Point from_corner = place - site.corner;
    const double along = dot(from_corner, along_azimuth(site.azimuth_rad));
    if (along < 0.0 || along > site.room_m) return std::nullopt;
    const double swath = std::round(dot(from_corner, right_of(site.azimuth_rad)) / site.step_m);
    if (!(swath >= 0.0 && swath < site.swaths)) return std::nullopt;
    return static_cast<int>(swath);
}

Site from_swath(Site site, int swath) {
    site.corner = site.corner + right_of(site.azimuth_rad) * (site.step_m * swath);
    site.swaths -= swath;
    return site;
}

std::vector<Site> sites_on(const FeedableGround& ground, const SiteOptions& options) {
    if (ground.region.empty() || options.room_m <= 0.0) return {};
    SiteOptions sound = options;
    sound.room_m += 3.0 * kTrim_m;  // so that a whole line fits between trimmed ends
    sound.spacing_m = std::max(options.spacing_m, kLeastStep_m);
    sound.swaths = std::max(1, options.swaths);
    const MultiPolygon& shape = ground.region.shape();
    std::vector<Heading> headings =
        line_headings(shape, options.heading_step_rad, options.azimuth_rad);
    if (options.azimuth_rad)
        std::erase_if(headings,
                      [&](const Heading& h) { return !is_along(h, *options.azimuth_rad); });
    std::vector<Tiling> tilings(headings.size());
    parallel_for(headings.size(), options.threads,
                 [&](std::size_t h) { tilings[h] = tiling_at(ground, headings[h], sound); });
    const auto best =
        std::max_element(tilings.begin(), tilings.end(),
                         [](const Tiling& a, const Tiling& b) { return a.lines < b.lines; });
    if (best == tilings.end() || best->room.empty()) return {};
    return blocks_of(*best, sound);
}

bool are_parallel(const Polyline& a, const Polyline& b) {
    const double turn = azimuth_rad(a.front(), a.back()) - azimuth_rad(b.front(), b.back());
    return std::abs(std::remainder(turn, units::kPi)) <= kParallel_rad;
}

std::vector<Site> sites_beside(const MultiPolyline& last, const SiteOptions& options) {
    if (last.empty() || last.front().size() < 2) return {};
    const double azimuth = azimuth_rad(last.front().front(), last.front().back());
    const Point ahead = along_azimuth(azimuth);
    const Point right = right_of(azimuth);
    Box box;
    for (const Polyline& line : last) {
        if (line.size() < 2 || bow_m(line) > kBow_m) return {};
        if (!are_parallel(line, last.front())) return {};
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
