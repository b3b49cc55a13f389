// Rules that moved the line come first, then what the heading follows on the ground. Each sentence
// is checked against the line itself, so that it holds whatever family the line came from.
#include "core/plan/reasons.h"

#include "core/base/units.h"
#include "core/plan/describe.h"
#include "core/plan/laying_wind.h"
#include "core/plan/spoken.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

using Sentence = std::optional<std::string>;

constexpr double kAlongWind_rad = 15.0 * units::kPi / 180.0;
constexpr double kAlongFence_rad = 2.5 * units::kPi / 180.0;
constexpr double kLongWay_rad = 7.5 * units::kPi / 180.0;
constexpr double kLongFence_m = 60.0;
constexpr double kByFence_m = 60.0;
constexpr double kSlope_ratio = 0.03;     // gentler ground has no up and down to speak of
constexpr double kOfSlope_ratio = 0.35;   // a line this near to level, or to straight up and down
constexpr double kLongField_ratio = 1.3;  // length over width
constexpr double kSampleStep_m = 10.0;

// A line and its reverse run alike.
double heading_gap(double a, double b) { return std::abs(std::remainder(a - b, units::kPi)); }

const CandidateLine& first_line(const PlacedLines& placed) { return placed.lines.lines.front(); }

double heading_of(const PlacedLines& placed) {
    const Polyline& path = first_line(placed).path;
    return azimuth_rad(path.front(), path.back());
}

Point middle_of(const PlacedLines& placed) {
    const Polyline& path = first_line(placed).path;
    return point_at(path, length_m(path) / 2.0);
}

// "in the lee of the trees, out of the northwest wind."
std::string lee_words(PlanContext& context, const ScheduledFeeding& feeding,
                      const PlacedLines& placed) {
    const double wind = *feeding.ground.lee_of_rad;
    std::string behind;
    if (const auto lee = context.sheltered(feeding.pasture, wind)) {
        for (const LeePart& part : (*lee)->parts)
            if (behind.empty() && contains(part.area, middle_of(placed))) behind = part.of;
    }
    return fmt::format("{}, out of the {} wind.",
                       behind.empty() ? "under high ground" : "in the lee of " + behind,
                       compass_word(wind));
}

Sentence lee_reason(PlanContext& context, const ScheduledFeeding& feeding,
                    const PlacedLines& placed) {
    if (!feeding.ground.lee_of_rad) return std::nullopt;
    return "It lies " + lee_words(context, feeding, placed);
}

Sentence fresh_reason(const ScheduledFeeding& feeding) {
    if (!feeding.ground.fresh_since) return std::nullopt;
    return "It lies on ground not fed on this winter, clean for calves.";
}

Sentence wind_reason(const Ranch& ranch, const ScheduledFeeding& feeding,
                     const PlacedLines& placed) {
    const auto wind = laying_wind_from_rad(ranch, ranch[feeding.rig], feeding.date);
    if (!wind || heading_gap(heading_of(placed), *wind) > kAlongWind_rad) return std::nullopt;
    return "It runs along the wind, so the leaf stays on the line.";
}

// By the mean slope under the line.
Sentence slope_reason(const Terrain& terrain, const PlacedLines& placed) {
    if (placed.lines.family == LineFamily::contour)
        return "It runs along the contour, so the rig stays level.";
    Gradient sum;
    int count = 0;
    for (const Point p : densified(first_line(placed).path, kSampleStep_m)) {
        const auto gradient = terrain.gradient(p);
        if (!gradient) continue;
        sum.east += gradient->east;
        sum.north += gradient->north;
        ++count;
    }
    const double slope = sum.slope_ratio();
    if (count == 0 || slope / count < kSlope_ratio) return std::nullopt;
    const double heading = heading_of(placed);
    if (std::abs(along_grade_ratio(sum, heading)) <= kOfSlope_ratio * slope)
        return "It runs along the contour, so the rig stays level.";
    if (cross_slope_ratio(sum, heading) <= kOfSlope_ratio * slope)
        return "It runs up and down the slope, so the rig does not lean.";
    return std::nullopt;
}

Sentence fence_reason(const Pasture& pasture, const PlacedLines& placed) {
    if (placed.lines.family == LineFamily::boundary) return "It follows the fence.";
    const Point middle = middle_of(placed);
    for (const Polyline& ring : boundary_lines(pasture.shape)) {
        for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
            const double edge = azimuth_rad(ring[i], ring[i + 1]);
            if (distance_m(ring[i], ring[i + 1]) < kLongFence_m ||
                heading_gap(edge, heading_of(placed)) > kAlongFence_rad)
                continue;
            const Point foot = nearest_on_segment(middle, ring[i], ring[i + 1]);
            if (distance_m(middle, foot) > kByFence_m) continue;
            return fmt::format("It runs along the {} fence.",
                               compass_word(azimuth_rad(middle, foot)));
        }
    }
    return std::nullopt;
}

// Length over width of the field with its length along a heading.
double length_over_width(const MultiPolygon& shape, double heading_rad) {
    const Point ahead = along_azimuth(heading_rad);
    Box box;
    for (const Polygon& part : shape)
        for (const Point p : part.outer) box.add({dot(p, ahead), cross(p, ahead)});
    return (box.max_x - box.min_x) / std::max(box.max_y - box.min_y, 1.0);
}

Sentence long_way_reason(const Pasture& pasture, const PlacedLines& placed) {
    double longest = 0.0;
    double way = 0.0;
    for (int k = 0; k < 36; ++k) {
        const double heading = units::rad_from_deg(5.0 * k);
        const double ratio = length_over_width(pasture.shape, heading);
        if (ratio <= longest) continue;
        longest = ratio;
        way = heading;
    }
    if (longest < kLongField_ratio || heading_gap(way, heading_of(placed)) > kLongWay_rad)
        return std::nullopt;
    return "It runs the long way of the field.";
}

Sentence order_reason(const PlacedLines& placed) {
    if (placed.place == OrderPlace::beside_last) return "It lies beside the herd's last line.";
    if (placed.place == OrderPlace::new_block) return "It begins a new piece of ground.";
    return std::nullopt;
}

std::string ground_sentence(const GroundSoFar& so_far, bool in_rings, const Settings& s) {
    return fmt::format(
        "{} has had {} {} so far; the pasture's average is {} and its heaviest place {}.",
        in_rings ? "This ground" : "This strip", spoken_density(so_far.here_per_m2, 1, s),
        spoken_density_unit(s), spoken_density(so_far.mean_per_m2, 1, s),
        spoken_density(so_far.heaviest_per_m2, 0, s));
}

// Of held lines nobody asked what else there was.
std::string way_sentence(ByHand by_hand, const PlacedLines& placed) {
    if (by_hand == ByHand::held) return "";
    const int minutes = static_cast<int>(std::lround(placed.above_nearest_s / 60.0));
    const char* what = placed.lines.in_rings ? "row" : "line";
    return minutes > 0 ? fmt::format(" It takes {} min more driving than the nearest {} allowed.",
                                     minutes, what)
                       : fmt::format(" No {} allowed is nearer.", what);
}

// What the rancher's own bales a day mean, beside what the tables would have said.
std::string own_count_sentence(const Ranch& ranch, const ScheduledFeeding& feeding) {
    if (!feeding.need.bales) return "";
    const double head_days = static_cast<double>(ranch[feeding.herd].head) * feeding.days;
    const Settings& s = ranch.settings;
    return fmt::format(" Your own count is {} of dry hay a head and day; the tables say {}.",
                       spoken_weight(feeding.needed_kg / head_days, s),
                       spoken_weight(feeding.need.table_offered_kg / head_days, s));
}

// Rings have no heading to give reasons for.
std::string ring_reason(PlanContext& context, const ScheduledFeeding& feeding,
                        const PlacedLines& placed) {
    if (feeding.by_hand == ByHand::held) return "You hold the rings here.";
    if (feeding.by_hand == ByHand::another) return "You asked for another place than was planned.";
    Sentence main;
    if (feeding.ground.lee_of_rad) main = "The rings stand " + lee_words(context, feeding, placed);
    if (!main && feeding.ground.fresh_since)
        main = "The rings stand on ground not fed on this winter, clean for calves.";
    if (placed.place == OrderPlace::beside_last)
        return (main ? *main + " " : "") + "They stand beside the herd's last ones.";
    if (main) return *main;
    return "Of the places that fit, these leave this pasture most even for the driving they take.";
}

}  // namespace

std::string place_reason(PlanContext& context, const ScheduledFeeding& feeding,
                         const PlacedLines& placed) {
    if (placed.lines.in_rings) return ring_reason(context, feeding, placed);
    if (feeding.by_hand == ByHand::held) return "You hold it here.";
    if (feeding.by_hand == ByHand::another) return "You asked for another place than was planned.";
    const Ranch& ranch = context.ranch();
    const Pasture& pasture = ranch[feeding.pasture];
    Sentence main = lee_reason(context, feeding, placed);
    if (!main) main = fresh_reason(feeding);
    if (!main) main = wind_reason(ranch, feeding, placed);
    if (!main) main = slope_reason(context.terrain(), placed);
    if (!main) main = fence_reason(pasture, placed);
    if (!main) main = long_way_reason(pasture, placed);
    const Sentence order = order_reason(placed);
    if (main && order) return *main + " " + *order;
    if (main || order) return main ? *main : *order;
    return "Of the lines that fit, it leaves this pasture most even for the driving it takes.";
}

std::string why(PlanContext& context, const ScheduledFeeding& feeding, const PlacedLines& placed,
                const GroundSoFar& so_far) {
    return place_reason(context, feeding, placed) + " " +
           ground_sentence(so_far, placed.lines.in_rings, context.ranch().settings) +
           way_sentence(feeding.by_hand, placed) + own_count_sentence(context.ranch(), feeding);
}

}  // namespace haylane
