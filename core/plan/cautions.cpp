#include "core/plan/cautions.h"

#include "core/base/units.h"
#include "core/geometry/boolean_ops.h"
#include "core/ration/requirement.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kSampleStep_m = 10.0;
constexpr double kHardFreeze_c = -2.2222222222222223;  // 28 F

double nearest_of_kind_m(const Ranch& ranch, const std::vector<PlannedLine>& lines,
                         OffLimitsKind kind) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const OffLimits& place : ranch.off_limits) {
        if (place.kind != kind) continue;
        for (const PlannedLine& line : lines) {
            for (const Point p : place.points)
                nearest = std::min(nearest, distance_m(p, line.path));
            for (const Polyline& l : place.lines)
                nearest = std::min(nearest, distance_m(l, line.path));
            for (const Polyline& l : boundary_lines(place.area))
                nearest = std::min(nearest, distance_m(l, line.path));
        }
    }
    return nearest;
}

double steepest_ratio(const Terrain& terrain, const std::vector<PlannedLine>& lines) {
    double steepest = 0.0;
    for (const PlannedLine& line : lines) {
        for (const Point p : densified(line.path, kSampleStep_m)) {
            if (const auto gradient = terrain.gradient(p))
                steepest = std::max(steepest, gradient->slope_ratio());
        }
    }
    return steepest;
}

void add_ground_cautions(const PlanContext& context, const PlannedFeeding& planned,
                         std::vector<Caution>& list) {
    const Ranch& ranch = context.ranch();
    const double steepest = steepest_ratio(context.terrain(), planned.lines);
    if (steepest > ranch.settings.slope_warn_ratio)
        list.push_back(
            {"side_slope",
             fmt::format("Slope to {:.0f} %: slow, and stay off it on ice.", steepest * 100.0)});
    const double keep = ranch.settings.water_caution_m;
    for (const OffLimitsKind kind : {OffLimitsKind::water, OffLimitsKind::wetland}) {
        if (nearest_of_kind_m(ranch, planned.lines, kind) < keep) {
            list.push_back(
                {"near_water",
                 "Within 300 ft of water: frozen ground sheds melt. Check state and local code."});
            break;
        }
    }
    if (nearest_of_kind_m(ranch, planned.lines, OffLimitsKind::well) < keep)
        list.push_back({"near_well", "Within 300 ft of a well: check state and local code."});
    if (nearest_of_kind_m(ranch, planned.lines, OffLimitsKind::buried_line) < 1.0)
        list.push_back({"buried_line", "Crosses a buried line: call before you drive here daily."});
}

void add_feed_cautions(const Ranch& ranch, const ScheduledFeeding& feeding,
                       const PlannedFeeding& planned, std::vector<Caution>& list) {
    if (planned.line_m_per_head < ranch.settings.head_space_m)
        list.push_back(
            {"crowded", fmt::format("Only {:.1f} ft of line a head: timid cows may go short.",
                                    planned.line_m_per_head / units::kMetersPerFoot)});
    if (feeding.lots.cp_short_ratio > 0.0)
        list.push_back({"protein_short",
                        fmt::format("Protein {:.1f} points under what this stage needs: add cake.",
                                    feeding.lots.cp_short_ratio * 100.0)});
    if (feeding.lots.tdn_short_ratio > 0.0)
        list.push_back(
            {"energy_short", fmt::format("Energy {:.1f} points of TDN under what this stage needs.",
                                         feeding.lots.tdn_short_ratio * 100.0)});
    if (feeding.need.energy_short_ratio > 0.0)
        list.push_back(
            {"cold_short",
             "Cold calls for more energy than more hay can give: better hay or a supplement."});
    if (!feeding.need.modelled && !feeding.need.bales)
        list.push_back({"not_modelled", "The tables do not reach this stage: set bales_per_day."});
    for (const LotPick& pick : feeding.lots.picks) {
        if (ranch[pick.lot].nitrate_ppm.value_or(0.0) >= ranch.settings.nitrate_caution_ppm)
            list.push_back(
                {"nitrate",
                 fmt::format("{} is high in nitrate: feed it with other hay, ask your vet.",
                             ranch[pick.lot].name)});
        if (!ranch[pick.lot].quality.tested)
            list.push_back({"not_tested", fmt::format("{} is not tested: table values used.",
                                                      ranch[pick.lot].name)});
    }
}

void add_weather_cautions(const Ranch& ranch, const PlannedFeeding& planned,
                          std::vector<Caution>& list) {
    const WeatherDay* weather = weather_on(ranch, planned.date);
    if (weather == nullptr) return;
    if (weather->thaw) {
        const bool froze = weather->low_c && *weather->low_c <= kHardFreeze_c;
        list.push_back({"thaw", froze
                                    ? "Thaw: dirt trails carry only while frozen, be back by 9:30."
                                    : "Thaw: soft ground is closed, dirt trails do not carry."});
    }
    if (weather->low_c && *weather->low_c < units::c_from_f(-10.0))
        list.push_back({"bitter_cold",
                        "Bitter cold: tell someone your way and return time; check open water."});
}

}  // namespace

std::vector<Caution> cautions_for(PlanContext& context, const ScheduledFeeding& feeding,
                                  const PlannedFeeding& planned) {
    std::vector<Caution> list = feeding.cautions;
    add_feed_cautions(context.ranch(), feeding, planned, list);
    add_weather_cautions(context.ranch(), planned, list);
    add_ground_cautions(context, planned, list);
    return list;
}

}  // namespace haylane
