#include "core/plan/haul_loads.h"

#include "core/haul/load_work.h"
#include "core/ration/feed_space.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

namespace haylane {

namespace {

PlannedLine planned_line(const ScheduledFeeding& feeding, const CandidateLine& line, int order) {
    return {.id = fmt::format("{}-h{}-{}", format_day(feeding.date), feeding.herd.value + 1, order),
            .shape = line.curved ? LineShape::curved : LineShape::straight,
            .path = line.path,
            .heading_rad = azimuth_rad(line.path.front(), line.path.back()),
            .length_m = length_m(line.path),
            .bales = line.bales,
            .order = order};
}

PlannedLeg leg(LegKind kind, Polyline path, const LegWork& work, std::vector<std::string> via) {
    return {kind, std::move(path), work.length_m, work.time_s, work.fuel_l, std::move(via)};
}

// The way in as a driver tells it: each name once, as far as the last gate.
std::vector<std::string> told(const Ranch& ranch, const std::vector<std::string>& via) {
    std::vector<std::string> names;
    std::size_t after_gate = 0;
    for (const std::string& name : via) {
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
        const bool gate = std::any_of(ranch.gates.begin(), ranch.gates.end(),
                                      [&](const Gate& g) { return g.name == name; });
        if (gate) after_gate = names.size();
    }
    if (after_gate > 0) names.resize(after_gate);
    return names;
}

// The lines of one load as one drive, joined in order.
Polyline joined(const std::vector<Polyline>& lines) {
    Polyline all;
    for (const Polyline& line : lines) all.insert(all.end(), line.begin(), line.end());
    return all;
}

PlannedLoad haul_one(PlanContext& context, const ScheduledFeeding& feeding, std::size_t index,
                     const std::vector<PlannedLine>& lines, bool first_load) {
    const Ranch& ranch = context.ranch();
    const ScheduledLoad& load = feeding.loads[index];
    const Rig& rig = ranch[feeding.rig];
    const TravelMap& travel = context.travel(feeding.date, rig);
    const WeatherDay* weather = weather_on(ranch, feeding.date);
    LoadInput input{.rig = &rig, .hay_kg = load.hay_kg, .bales = load.bales, .wrap = load.wrap};
    PlannedLoad planned{.bales = load.draws, .bale_count = load.bales, .yard = load.yard};
    for (const PlannedLine& line : lines) {
        input.lines.push_back(line.path);
        planned.line_ids.push_back(line.id);
    }
    const auto out = travel.route(load.yard, feeding.pasture, input.lines.front().front());
    const auto way_back = travel.route(load.yard, feeding.pasture, input.lines.back().back());
    const Route back = way_back ? reversed(*way_back) : Route{};
    input.out = out ? &*out : nullptr;
    input.back = way_back ? &back : nullptr;
    input.first_load = first_load;
    if (weather != nullptr) {
        input.low_c = weather->low_c;
        input.snow = weather->snow;
        input.thaw = weather->thaw;
    }
    const LoadWork work = load_work(input, context.terrain(), ranch.settings);
    planned.distance_m = work.distance_m;
    planned.loaded_distance_m = work.loaded_distance_m;
    planned.time_s = work.time_s;
    planned.fuel_l = work.fuel_l;
    planned.cost = work.cost;
    if (out)
        planned.legs.push_back(leg(LegKind::out, out->path(), work.out, told(ranch, out->via)));
    planned.legs.push_back(leg(LegKind::lay, joined(input.lines), work.lay, {}));
    if (way_back) planned.legs.push_back(leg(LegKind::back, back.path(), work.back, back.via));
    return planned;
}

}  // namespace

void haul_loads(PlanContext& context, const ScheduledFeeding& feeding, const Candidate& chosen,
                RigsOut& out, PlannedFeeding& planned) {
    std::size_t next = 0;
    while (next < chosen.lines.size()) {
        const int load = chosen.lines[next].load;
        std::vector<PlannedLine> lines;
        for (; next < chosen.lines.size() && chosen.lines[next].load == load; ++next)
            lines.push_back(planned_line(feeding, chosen.lines[next], static_cast<int>(next) + 1));
        const bool first = out.insert({feeding.date, feeding.rig}).second;
        planned.loads.push_back(
            haul_one(context, feeding, static_cast<std::size_t>(load), lines, first));
        for (PlannedLine& line : lines) {
            planned.line_length_m += line.length_m;
            planned.lines.push_back(std::move(line));
        }
    }
    planned.lay_kg_per_m = feeding.lay_kg_per_m;
    planned.line_m_per_head =
        line_space_m_per_head(planned.line_length_m, context.ranch()[feeding.herd].head);
}

}  // namespace haylane
