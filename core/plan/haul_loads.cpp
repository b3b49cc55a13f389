#include "core/plan/haul_loads.h"

#include "core/haul/field_ends.h"
#include "core/haul/load_work.h"
#include "core/lines/joins.h"
#include "core/lines/loads.h"
#include "core/lines/ring_places.h"
#include "core/plan/ring_feeding.h"
#include "core/ranch/rig_turning.h"
#include "core/ration/feed_space.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kSamePlace_m = 0.01;

PlannedLine planned_line(const ScheduledFeeding& feeding, const CandidateLine& line, int order,
                         bool in_rings) {
    return {.id = fmt::format("{}-h{}-{}", format_day(feeding.date), feeding.herd.value + 1, order),
            .shape = line.curved ? LineShape::curved : LineShape::straight,
            .path = line.path,
            .heading_rad = azimuth_rad(line.path.front(), line.path.back()),
            .length_m = length_m(line.path),
            .bales = line.bales,
            .order = order,
            .places = in_rings ? ring_places(line.path, line.bales) : std::vector<Point>{}};
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

// Where a driver of this feeding cannot do as planned, by line.
struct Troubles {
    std::vector<std::string> turns;  // "onto line 2", "onto row 2"
    std::vector<std::string> hay;
};

std::vector<Caution> cautions_of(const Troubles& troubles) {
    std::vector<Caution> list;
    if (!troubles.turns.empty())
        list.push_back({"no_turn",
                        fmt::format("No room for a forward turn {}: stop and back up there.",
                                    fmt::join(troubles.turns, ", ")),
                        "back up"});
    if (!troubles.hay.empty())
        list.push_back({"over_hay",
                        fmt::format("No way was found {} that keeps off hay laid that day.",
                                    fmt::join(troubles.hay, ", ")),
                        "over today's hay"});
    return list;
}

// One load on its way: its lines, and what is turned on.
class Haul {
  public:
    Haul(PlanContext& context, const ScheduledFeeding& feeding, const TurnGround& ground,
         DaysWork& work)
        : context_(context),
          ranch_(context.ranch()),
          feeding_(feeding),
          in_rings_(is_fed_in_rings(context.ranch(), feeding.herd)),
          travel_(context.travel(feeding.date, ranch_[feeding.rig])),
          ground_(ground),
          work_(work),
          hay_(work.hay[feeding.date]) {}

    [[nodiscard]] const Troubles& troubles() const { return troubles_; }

    PlannedLoad haul(std::size_t index, const std::vector<PlannedLine>& lines) {
        const ScheduledLoad& load = feeding_.loads[index];
        LoadInput input{.rig = &ranch_[feeding_.rig],
                        .hay_kg = load.hay_kg,
                        .bales = load.bales,
                        .wrap = load.wrap,
                        .in_rings = in_rings_,
                        .first_load = work_.rigs_out.insert({feeding_.date, feeding_.rig}).second};
        if (const WeatherDay* weather = weather_on(ranch_, feeding_.date)) {
            input.low_c = weather->low_c;
            input.snow = weather->snow;
            input.thaw = weather->thaw;
        }
        const auto out = way_to(load.yard, lines.front());
        lay(lines, input);
        const auto back = way_from(load.yard, lines.back());
        input.out = out ? &*out : nullptr;
        input.back = back ? &*back : nullptr;
        return planned(load, lines, input);
    }

  private:
    [[nodiscard]] std::optional<Route> way_to(YardId yard, const PlannedLine& line) {
        const auto route = travel_.route(yard, feeding_.pasture, line.path.front());
        if (!route) return std::nullopt;
        return noted(way_in(*route, line.path, hay_, ground_), "onto", line);
    }

    [[nodiscard]] std::optional<Route> way_from(YardId yard, const PlannedLine& line) {
        const auto route = travel_.route(yard, feeding_.pasture, line.path.back());
        if (!route) return std::nullopt;
        return noted(way_out(reversed(*route), line.path, hay_, ground_), "off", line);
    }

    Route noted(FieldWay way, const char* where, const PlannedLine& line) {
        const std::string here = fmt::format("{} {}", where, name(line));
        if (!way.turns) troubles_.turns.push_back(here);
        if (!way.off_hay) troubles_.hay.push_back(here);
        return std::move(way.route);
    }

    [[nodiscard]] std::string name(const PlannedLine& line) const {
        return fmt::format("{} {}", in_rings_ ? "row" : "line", line.order);
    }

    // Lays the lines: their hay lies there from then on.
    void lay(const std::vector<PlannedLine>& lines, LoadInput& input) {
        for (const PlannedLine& line : lines) {
            input.joins.push_back(input.lines.empty() ? Polyline{}
                                                      : way_on(input.lines.back(), line));
            if (crosses_hay(line.path, hay_)) troubles_.hay.push_back("along " + name(line));
            input.lines.push_back(line.path);
            hay_.push_back(line.path);
        }
    }

    // From line to line; straight where there is no room to turn.
    [[nodiscard]] Polyline way_on(const Polyline& from, const PlannedLine& to) {
        auto way = join(from, to.path, hay_, ground_.radius_m, *ground_.drivable);
        if (way) return std::move(*way);
        Polyline straight{from.back(), to.path.front()};
        noted({{}, false, !crosses_hay(straight, hay_)}, "onto", to);
        return straight;
    }

    [[nodiscard]] PlannedLoad planned(const ScheduledLoad& load,
                                      const std::vector<PlannedLine>& lines,
                                      const LoadInput& input) const {
        const LoadWork work = load_work(input, context_.terrain(), ranch_.settings);
        PlannedLoad planned{.bales = load.draws,
                            .bale_count = load.bales,
                            .yard = load.yard,
                            .distance_m = work.distance_m,
                            .loaded_distance_m = work.loaded_distance_m,
                            .time_s = work.time_s,
                            .fuel_l = work.fuel_l,
                            .cost = work.cost};
        for (const PlannedLine& line : lines)
            if (!in_rings_) planned.line_ids.push_back(line.id);
        if (input.out != nullptr)
            planned.legs.push_back(
                leg(LegKind::out, input.out->path(), work.out, told(ranch_, input.out->via)));
        planned.legs.push_back(leg(LegKind::lay, laid(input), work.lay, {}));
        if (input.back != nullptr) {
            std::vector<std::string> via = told(ranch_, reversed(*input.back).via);
            std::reverse(via.begin(), via.end());
            planned.legs.push_back(leg(LegKind::back, input.back->path(), work.back, via));
        }
        return planned;
    }

    // Lines and the ways between them as one drive.
    static Polyline laid(const LoadInput& input) {
        Polyline all;
        for (std::size_t i = 0; i < input.lines.size(); ++i) {
            for (const Polyline* piece : {&input.joins[i], &input.lines[i]})
                for (const Point p : *piece)
                    if (all.empty() || distance_m(all.back(), p) > kSamePlace_m) all.push_back(p);
        }
        return all;
    }

    PlanContext& context_;
    const Ranch& ranch_;
    const ScheduledFeeding& feeding_;
    bool in_rings_;
    const TravelMap& travel_;
    TurnGround ground_;
    DaysWork& work_;
    MultiPolyline& hay_;  // laid that day so far
    Troubles troubles_;
};

}  // namespace

void DaysWork::add(const ScheduledFeeding& feeding, const Candidate& lines) {
    rigs_out.insert({feeding.date, feeding.rig});
    MultiPolyline& laid = hay[feeding.date];
    for (const CandidateLine& line : lines.lines) laid.push_back(line.path);
}

Result<std::vector<Caution>> haul_loads(PlanContext& context, const ScheduledFeeding& feeding,
                                        const Candidate& chosen, DaysWork& work,
                                        PlannedFeeding& planned) {
    const Rig& rig = context.ranch()[feeding.rig];
    const TravelMap& travel = context.travel(feeding.date, rig);
    const auto turning = context.turning_ground(feeding.pasture, rig, feeding.date);
    if (!turning) return fail(turning.error());
    Haul haul(context, feeding,
              {.radius_m = driven_radius_m(rig),
               .drivable = *turning,
               .space = &travel.space(feeding.pasture),
               .field_m_per_s = travel.field_m_per_s()},
              work);
    std::size_t next = 0;
    while (next < chosen.lines.size()) {
        const int load = chosen.lines[next].load;
        std::vector<PlannedLine> lines;
        for (; next < chosen.lines.size() && chosen.lines[next].load == load; ++next)
            lines.push_back(planned_line(feeding, chosen.lines[next], static_cast<int>(next) + 1,
                                         chosen.in_rings));
        planned.loads.push_back(haul.haul(static_cast<std::size_t>(load), lines));
        for (PlannedLine& line : lines) {
            if (!chosen.in_rings) planned.line_length_m += line.length_m;
            planned.lines.push_back(std::move(line));
        }
    }
    planned.in_rings = chosen.in_rings;
    if (!chosen.in_rings) planned.lay_kg_per_m = feeding.lay_kg_per_m;
    planned.line_m_per_head =
        line_space_m_per_head(planned.line_length_m, context.ranch()[feeding.herd].head);
    return cautions_of(haul.troubles());
}

}  // namespace haylane
