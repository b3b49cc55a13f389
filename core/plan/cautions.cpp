#include "core/plan/cautions.h"

#include "core/base/units.h"
#include "core/haul/motion.h"
#include "core/lines/discharge.h"
#include "core/plan/ground_need.h"
#include "core/plan/laying_wind.h"
#include "core/plan/spoken.h"
#include "core/ration/requirement.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kSampleStep_m = 10.0;

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
             fmt::format("Slope to {:.0f} %: go slow, and stay off it on ice.", steepest * 100.0),
             fmt::format("slope {:.0f} %", steepest * 100.0)});
    const double keep = ranch.settings.water_caution_m;
    const double water = std::min(nearest_of_kind_m(ranch, planned.lines, OffLimitsKind::water),
                                  nearest_of_kind_m(ranch, planned.lines, OffLimitsKind::wetland));
    if (water < keep)
        list.push_back({"near_water",
                        fmt::format("Within {} of water: frozen ground sheds melt. Check state and "
                                    "local code.",
                                    spoken_length(keep, ranch.settings)),
                        "by water"});
    if (nearest_of_kind_m(ranch, planned.lines, OffLimitsKind::well) < keep)
        list.push_back({"near_well",
                        fmt::format("Within {} of a well: check state and local code.",
                                    spoken_length(keep, ranch.settings)),
                        "near a well"});
    if (nearest_of_kind_m(ranch, planned.lines, OffLimitsKind::buried_line) < 1.0)
        list.push_back({"buried_line", "Crosses a buried line: call before you drive here daily.",
                        "buried line"});
}

void add_ration_cautions(const ScheduledFeeding& feeding, std::vector<Caution>& list) {
    if (feeding.lots.cp_short_ratio > 0.0)
        list.push_back({"protein_short",
                        fmt::format("Protein {:.1f} points under what this stage needs: add cake.",
                                    feeding.lots.cp_short_ratio * 100.0),
                        "protein short"});
    if (feeding.lots.tdn_short_ratio > 0.0)
        list.push_back({"energy_short",
                        fmt::format("Energy {:.1f} points of TDN under what this stage needs.",
                                    feeding.lots.tdn_short_ratio * 100.0),
                        "energy short"});
    if (feeding.need.energy_short_ratio > 0.0)
        list.push_back({"cold_short",
                        "Energy short: cold calls for more than more hay can give. Better hay or a "
                        "supplement.",
                        "cold, energy short"});
    if (!feeding.need.modelled && !feeding.need.bales)
        list.push_back({"not_modelled",
                        "Not modelled for this stage: a dry cow's need is used. Set bales_per_day.",
                        "set bales a day"});
}

// Cows at a ring at one time: 12 to 15, Missouri extension.
constexpr double kMostAtRing = 15.0;

void add_ring_cautions(const Ranch& ranch, const PlannedFeeding& planned,
                       std::vector<Caution>& list) {
    std::size_t rings = 0;
    for (const PlannedLine& row : planned.lines) rings += row.places.size();
    const double heads = static_cast<double>(ranch[planned.herd].head) / static_cast<double>(rings);
    if (heads > kMostAtRing)
        list.push_back({"crowded_rings",
                        fmt::format("{:.0f} head to a ring, and {:.0f} can eat at one: feed for "
                                    "more days at a time, or timid cows go short.",
                                    heads, kMostAtRing),
                        "crowded rings"});
    list.push_back({"ring_ground",
                    "Rings make heavy ground: move them to these places, do not fill them where "
                    "they stood.",
                    "move the rings"});
    list.push_back({"bale_may_roll",
                    "Set each bale where it cannot roll, and stay uphill of it: look before you "
                    "let it down.",
                    "bales must not roll"});
    if (ranch[planned.rig].method == Method::shred)
        list.push_back({"ring_rig",
                        fmt::format("{} shreds: bring a loader or bale forks to set whole bales "
                                    "down.",
                                    ranch[planned.rig].name),
                        "bring bale forks"});
}

void add_feed_cautions(const Ranch& ranch, const ScheduledFeeding& feeding,
                       const PlannedFeeding& planned, std::vector<Caution>& list) {
    if (planned.in_rings)
        add_ring_cautions(ranch, planned, list);
    else if (planned.line_m_per_head < ranch.settings.head_space_m)
        list.push_back({"crowded",
                        fmt::format("Only {} of line a head: timid cows may go short.",
                                    spoken_short_length(planned.line_m_per_head, ranch.settings)),
                        "crowded line"});
    add_ration_cautions(feeding, list);
    for (const LotPick& pick : feeding.lots.picks) {
        const HayLot& lot = ranch[pick.lot];
        if (lot.nitrate_ppm.value_or(0.0) >= ranch.settings.nitrate_caution_ppm)
            list.push_back({"nitrate",
                            fmt::format("{} is high in nitrate: feed it with other hay, ask your "
                                        "vet.",
                                        lot.name),
                            "nitrate hay: mix it"});
        if (!lot.quality.tested)
            list.push_back({"not_tested",
                            fmt::format("{} is not tested: table values used.", lot.name),
                            "hay not tested"});
    }
}

// What wind does to a shredding rig.
void add_laying_cautions(const Ranch& ranch, const PlannedFeeding& planned,
                         std::vector<Caution>& list) {
    const Rig& rig = ranch[planned.rig];
    MultiPolyline paths;
    for (const PlannedLine& line : planned.lines) paths.push_back(line.path);
    const auto wind = laying_wind_from_rad(ranch, rig, planned.date);
    if (wind && std::any_of(paths.begin(), paths.end(), [&](const Polyline& path) {
            return throws_into_wind(path, rig.discharge, *wind);
        }))
        list.push_back({"into_wind",
                        "Discharges into the wind: no way to drive it the other way round was "
                        "found.",
                        "discharges into wind"});
    const double fines = fines_ratio(ranch, rig, planned.date, paths);
    if (fines > 0.0)
        list.push_back({"leaf_lost",
                        fmt::format("About {:.0f} % of the hay blows off as leaf.", fines * 100.0),
                        fmt::format("{:.0f} % leaf lost", fines * 100.0)});
}

void add_weather_cautions(const Ranch& ranch, const PlannedFeeding& planned,
                          std::vector<Caution>& list) {
    const WeatherDay* weather = weather_on(ranch, planned.date);
    if (weather == nullptr) return;
    const GroundState state{.snow = weather->snow, .thaw = weather->thaw, .low_c = weather->low_c};
    const std::string until = spoken_clock(ranch.settings.carry_until);
    if (weather->thaw && frozen_overnight(state))
        list.push_back(
            {"thaw",
             fmt::format("Thaw: dirt trails carry only while frozen, be back by {}.", until),
             fmt::format("thaw, back by {}", until)});
    else if (weather->thaw)
        list.push_back({"thaw", "Thaw: soft ground is closed, dirt trails do not carry.",
                        "thaw, dirt trails shut"});
    if (!planned.in_rings) add_laying_cautions(ranch, planned, list);
    if (is_cold_and_windy(ranch, planned.date) && !weather->wind_from_rad)
        list.push_back({"wind_unknown",
                        "A cold wind, but from where is not known: feed where the cows find "
                        "shelter from it.",
                        "cold wind: find shelter"});
    if (weather->low_c && *weather->low_c < units::c_from_f(-10.0))
        list.push_back({"bitter_cold",
                        "Bitter cold: tell someone your way and return time; check open water.",
                        "bitter cold"});
}

}  // namespace

std::vector<Caution> cautions_for(PlanContext& context, const ScheduledFeeding& feeding,
                                  const PlannedFeeding& planned) {
    std::vector<Caution> list;
    add_feed_cautions(context.ranch(), feeding, planned, list);
    add_weather_cautions(context.ranch(), planned, list);
    add_ground_cautions(context, planned, list);
    return list;
}

}  // namespace haylane
