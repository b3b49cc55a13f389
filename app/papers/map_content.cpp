// What of a plan goes on the map.

#include "app/papers/map_painter.h"

#include <algorithm>

namespace haylane {
namespace {

void add_name(std::vector<std::string>& names, const std::string& name) {
    if (name.empty() || std::find(names.begin(), names.end(), name) != names.end()) return;
    names.push_back(name);
}

void add_ways(MapContent& content, const PlannedFeeding& feeding) {
    if (!feeding.firm) return;
    for (const PlannedLoad& load : feeding.loads) {
        for (const PlannedLeg& leg : load.legs) {
            if (leg.kind == LegKind::out && leg.path.size() > 1) content.ways.push_back(leg.path);
        }
    }
}

void add_names(MapContent& content, const PlannedFeeding& feeding, const Ranch& ranch) {
    for (const BaleDraw& draw : feeding.bales) add_name(content.first_names, ranch[draw.yard].name);
    for (const PlannedLoad& load : feeding.loads) {
        for (const PlannedLeg& leg : load.legs) {
            if (leg.kind != LegKind::out) continue;
            for (const std::string& name : leg.via) add_name(content.first_names, name);
        }
    }
    add_name(content.first_names, feeding.start.from);
    for (const WaterPoint& water : ranch.water) {
        if (!water.name.empty() && feeding.toward.find(water.name) != std::string::npos) {
            add_name(content.first_names, water.name);
        }
    }
}

// Gates and water that the plan's texts name.
void add_landmarks(Box& box, const MapContent& content, const Ranch& ranch) {
    const auto named = [&](const std::string& name) {
        return std::find(content.first_names.begin(), content.first_names.end(), name) !=
               content.first_names.end();
    };
    for (const Gate& gate : ranch.gates) {
        if (named(gate.name)) box.add(gate.at);
    }
    for (const WaterPoint& water : ranch.water) {
        if (named(water.name)) box.add(water.at);
    }
}

}  // namespace

MapLine map_line(const PlannedFeeding& feeding, const PlannedLine& line, int day) {
    return {line.path, feeding.herd.value, day, feeding.firm, line.id, line.places};
}

MapContent map_content(const Plan& plan, const Ranch& ranch) {
    MapContent content;
    for (const PlannedFeeding& feeding : plan.feedings) {
        const int day = static_cast<int>((feeding.date - plan.from).count()) + 1;
        for (const PlannedLine& line : feeding.lines) {
            content.lines.push_back(map_line(feeding, line, day));
        }
        add_ways(content, feeding);
        add_names(content, feeding, ranch);
    }
    return content;
}

Box box_to_show(const MapContent& content, const Ranch& ranch) {
    Box box;
    for (const MapLine& line : content.lines) {
        for (const Point& p : line.path) box.add(p);
    }
    for (const Polyline& way : content.ways) {
        for (const Point& p : way) box.add(p);
    }
    if (box.empty()) {
        for (const Pasture& pasture : ranch.pastures) {
            const Box own = box_of(pasture.shape);
            if (own.empty()) continue;
            box.add({own.min_x, own.min_y});
            box.add({own.max_x, own.max_y});
        }
    } else {
        for (const Yard& yard : ranch.yards) box.add(yard.at);
        add_landmarks(box, content, ranch);
    }
    const double span = std::max(box.max_x - box.min_x, box.max_y - box.min_y);
    return box.empty() ? box : box.grown_by(0.06 * span + 30.0);
}

}  // namespace haylane
