// A family is a heading and an offset where its swaths begin. Swaths stand at whole multiples of
// half the spacing from there and are asked of the ground only when needed. The full density
// (offsets every half spacing, starts every quarter line) is thinned before any line is made: first
// the offsets until they are as far apart as the starts, then both. Steep or cut-up ground then
// gives too few, so the density is raised and the work repeated, at most a few times.
#include "core/lines/straight_lines.h"

#include "core/lines/headings.h"
#include "core/lines/loads.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <utility>

namespace haylane {

namespace {

constexpr double kTrim_m = 0.01;  // taken off both ends of every span
constexpr double kLeastSpacing_m = 1.0;
constexpr int kRounds = 6;
constexpr double kGoldenShare = 0.6180339887498949;

using Span = Region::Span;

// Every how many swaths to begin, and how far apart starts stand on them.
struct Density {
    int swaths = 1;
    double start_step_m = 1.0;
    bool thinned = false;
};

Density density_for(double reduction, double offset_m, double start_m) {
    if (reduction <= 1.0) return {1, start_m, false};
    const double even = start_m / offset_m;  // swaths skipped until both steps are alike
    double swaths = std::min(reduction, std::max(1.0, even));
    double starts = reduction / swaths;
    if (starts > 1.0 && even >= 1.0) {
        starts = std::sqrt(starts);
        swaths *= starts;
    }
    return {static_cast<int>(std::lround(swaths)), start_m * starts, true};
}

// All swaths of one heading. Swath k lies at anchor + k * spacing / 2.
class Family {
  public:
    Family(const FeedableGround& ground, const LineRequest& request, const Heading& heading)
        : ground_(&ground),
          request_(&request),
          ahead_(along_azimuth(heading.azimuth_rad)),
          normal_(right_of(heading.azimuth_rad)),
          anchor_m_(heading.anchor_m),
          half_m_(std::max(request.spacing_m, kLeastSpacing_m) / 2.0) {
        for (const Polygon& part : ground.region.shape()) {
            for (const Point p : part.outer) reach_.add({dot(p, ahead_), dot(p, normal_)});
        }
        first_ = static_cast<int>(std::ceil((reach_.min_y - anchor_m_) / half_m_));
        last_ = static_cast<int>(std::floor((reach_.max_y - anchor_m_) / half_m_));
    }

    // The longest line along any of the swaths that `density` begins from.
    [[nodiscard]] double longest_m(const Density& density, int number) {
        double longest = 0.0;
        for (int k = begin(density, number); k <= last_; k += density.swaths)
            for (const Span& span : spans(k)) longest = std::max(longest, span.to_m - span.from_m);
        return longest;
    }

    // Adds this heading's ways; `number` staggers where thinned families begin. Loads longer than
    // `longest_m` are cut.
    void add_candidates(std::vector<Candidate>& found, const Density& density, int number,
                        double longest_m) {
        longest_m_ = longest_m;
        int turn = number;
        for (int k = begin(density, number); k <= last_; k += density.swaths) {
            const std::vector<Span> here = spans(k);
            for (const Span& span : here) add_starts(found, k, span, density, turn++);
        }
    }

  private:
    // Which way a feeding grows from its first line: towards the gate, along and across.
    struct Growth {
        double along = 1.0;
        int across = 1;
    };

    // A feeding under way. `u` runs along the growth: u = along * s.
    struct Block {
        Growth growth;
        LoadQueue queue;
        double first_u = 0.0;
        int swaths = 0;
        std::vector<CandidateLine> lines;
    };

    [[nodiscard]] int begin(const Density& density, int number) const {
        const double share = std::fmod(number * kGoldenShare, 1.0);
        return first_ + static_cast<int>(share * density.swaths);
    }

    const std::vector<Span>& spans(int k) {
        const auto known = spans_.find(k);
        if (known != spans_.end()) return known->second;
        const double from = reach_.min_x - 1.0;
        std::vector<Span> cut =
            ground_->allowed_spans(place(from, k), place(reach_.max_x + 1.0, k));
        for (Span& span : cut) span = {from + span.from_m + kTrim_m, from + span.to_m - kTrim_m};
        std::erase_if(cut, [](const Span& span) { return span.to_m <= span.from_m; });
        return spans_.emplace(k, std::move(cut)).first->second;
    }

    [[nodiscard]] Point place(double s, int k) const {
        return ahead_ * s + normal_ * (anchor_m_ + half_m_ * k);
    }

    [[nodiscard]] Growth growth_at(Point p) const {
        if (request_->gates.empty()) return {};
        const Point gate = *std::min_element(
            request_->gates.begin(), request_->gates.end(),
            [&](Point a, Point b) { return distance_m(p, a) < distance_m(p, b); });
        return {dot(gate - p, ahead_) < 0.0 ? -1.0 : 1.0, dot(gate - p, normal_) < 0.0 ? -1 : 1};
    }

    void add_starts(std::vector<Candidate>& found, int k, const Span& span, const Density& density,
                    int turn) {
        const double room = span.to_m - span.from_m;
        const auto first = LoadQueue(request_->loads, longest_m_).fitting(room);
        if (!first) return;
        const double slack = std::max(0.0, room - first->length_m);
        const double steps = slack / density.start_step_m;
        const int count = static_cast<int>(density.thinned ? steps : std::ceil(steps)) + 1;
        const Growth growth = growth_at(place((span.from_m + span.to_m) / 2.0, k));
        for (int i = 0; i < count; ++i) {
            const double share = count > 1 ? static_cast<double>(i) / (count - 1) : turn % 3 / 2.0;
            if (auto one = feeding(k, span, slack * share, growth)) found.push_back(*one);
            if (slack < kTrim_m) break;
        }
    }

    // The feeding whose first line starts `skip_m` from the span's far end.
    std::optional<Candidate> feeding(int k, const Span& span, double skip_m, Growth growth) {
        const Span along = turned(span, growth.along);
        Block block{growth, LoadQueue(request_->loads, longest_m_), along.from_m + skip_m, 0, {}};
        fill(block, k, {block.first_u, along.to_m});
        int side = growth.across;
        for (int next = k + 2 * side; !block.queue.done(); next += 2 * side) {
            if (next < first_ || next > last_) {
                if (side != growth.across) return std::nullopt;
                side = -side;
                next = k;
                continue;
            }
            if (const auto span_beside = best_span(block, next)) fill(block, next, *span_beside);
        }
        return in_driving_order(std::move(block.lines), *request_);
    }

    static Span turned(const Span& span, double along) {
        return along > 0.0 ? span : Span{-span.to_m, -span.from_m};
    }

    // Lays pieces end to end from the span's start while they fit.
    void fill(Block& block, int k, const Span& span) {
        double u = span.from_m;
        // Driven away from the gate, then back and forth from swath to swath.
        const bool away = block.swaths % 2 == 0;
        ++block.swaths;
        while (const auto piece = block.queue.fitting(span.to_m - u)) {
            Point start = place(block.growth.along * (u + piece->length_m), k);
            Point end = place(block.growth.along * u, k);
            if (!away) std::swap(start, end);
            block.lines.push_back(
                {{start, end}, false, piece->length_m, piece->load, piece->bales});
            block.queue.take(*piece);
            u += piece->length_m;
        }
    }

    // The part of the swath, as near beside the first line as it goes, that takes the next piece.
    std::optional<Span> best_span(const Block& block, int k) {
        std::optional<Span> best;
        double least = std::numeric_limits<double>::infinity();
        for (const Span& span : spans(k)) {
            const Span along = turned(span, block.growth.along);
            const auto piece = block.queue.fitting(along.to_m - along.from_m);
            if (!piece) continue;
            const double latest = std::max(along.from_m, along.to_m - piece->length_m);
            const double u = std::clamp(block.first_u, along.from_m, latest);
            if (std::abs(u - block.first_u) >= least) continue;
            least = std::abs(u - block.first_u);
            best = Span{u, along.to_m};
        }
        return best;
    }

    const FeedableGround* ground_;
    const LineRequest* request_;
    Point ahead_;
    Point normal_;
    double anchor_m_;
    double half_m_;
    Box reach_;  // x along the heading, y across
    int first_ = 0;
    int last_ = -1;
    double longest_m_ = 0.0;
    std::map<int, std::vector<Span>> spans_;
};

// Whether a load is cut where its heading has no line long enough, or only where no heading has.
enum class Cut { where_none_is_long_enough, by_heading };

std::vector<Candidate> all_families(std::vector<Family>& families, const Density& density,
                                    Cut cut) {
    std::vector<double> longest;
    for (std::size_t f = 0; f < families.size(); ++f)
        longest.push_back(families[f].longest_m(density, static_cast<int>(f)));
    const double most = *std::max_element(longest.begin(), longest.end());
    std::vector<Candidate> found;
    for (std::size_t f = 0; f < families.size(); ++f)
        families[f].add_candidates(found, density, static_cast<int>(f),
                                   cut == Cut::by_heading ? longest[f] : most);
    return found;
}

}  // namespace

std::vector<Candidate> straight_candidates(const FeedableGround& ground, const LineRequest& request,
                                           int wanted) {
    std::vector<Candidate> found;
    if (ground.region.empty() || request.loads.empty() || wanted < 1) return found;
    const MultiPolygon& shape = ground.region.shape();
    std::vector<Family> families;
    for (const Heading& heading :
         line_headings(shape, request.heading_step_rad, request.wind_from_rad))
        families.emplace_back(ground, request, heading);
    const Box& box = ground.region.box();
    const double across = std::hypot(box.max_x - box.min_x, box.max_y - box.min_y);
    const double offset = std::max(request.spacing_m, kLeastSpacing_m) / 2.0;
    const double start = std::min(request.loads.front().length_m, across) / 4.0;
    const double expected =
        static_cast<double>(families.size()) * area_m2(shape) / (offset * start);
    double reduction = expected / (1.5 * wanted);
    for (int round = 0; round < kRounds; ++round) {
        const Density density = density_for(reduction, offset, start);
        found = all_families(families, density, Cut::where_none_is_long_enough);
        if (4.0 * static_cast<double>(found.size()) < wanted)
            found = all_families(families, density, Cut::by_heading);
        const double enough = static_cast<double>(found.size()) / wanted;
        if (enough >= 1.0 || reduction <= 1.0) break;
        reduction *= std::clamp(enough / 1.5, 0.1, 0.7);
    }
    return found;
}

}  // namespace haylane
