// Gates, trails and places. A name used twice is kept and numbered: a gate left out would shut a
// way.
#include "core/ranch/check_parts.h"
#include "core/ranch/check_shapes.h"
#include "core/ranch/words.h"

#include <fmt/format.h>

namespace haylane {

namespace {

std::string subject(std::string_view what, const RawRow& row, std::size_t number) {
    const std::string name = row.text("name");
    return name.empty() ? fmt::format("{} {}", what, number) : fmt::format("{} \"{}\"", what, name);
}

DateWindow closed_window(RowReader& reader) {
    return {.from = reader.mark("closed_from"), .to = reader.mark("closed_to")};
}

// Calls use(reader, place, name) for each row of a role of points; names are made unique.
template <class Items, class Use>
void for_points(Checking& checking, std::string_view role, std::string_view what, Items& items,
                Use use) {
    std::size_t number = 0;
    for (const RawRow& row : checking.rows(role)) {
        RowReader reader(role, row, checking, subject(what, row, ++number));
        const std::optional<Point> at = point_shape(reader);
        if (!at) continue;
        std::string name =
            free_name(name_or_number(reader, folded(what), number), names_of(items), reader);
        items.push_back(use(reader, *at, std::move(name)));
    }
}

}  // namespace

void check_gates(Checking& checking) {
    const double usual_s = checking.ranch.settings.gate_s;
    for_points(checking, "gates", "Gate", checking.ranch.gates,
               [&](RowReader& reader, Point at, std::string name) {
                   return Gate{.name = std::move(name),
                               .at = at,
                               .closed = closed_window(reader),
                               .open_s = reader.number("open_s").value_or(usual_s)};
               });
}

void check_trails(Checking& checking) {
    std::size_t number = 0;
    for (const RawRow& row : checking.rows("trails")) {
        RowReader reader("trails", row, checking, subject("Trail", row, ++number));
        std::optional<MultiPolyline> path = line_shape(reader);
        if (!path) continue;
        checking.ranch.trails.push_back(
            {.name = name_or_number(reader, "trail", number),
             .path = std::move(*path),
             .surface = reader.word("surface", kSurfaceWords).value_or(Surface::two_track),
             .speed_m_per_s = reader.number("speed_m_per_s"),
             .max_kg = reader.number("max_kg"),
             .closed = closed_window(reader)});
    }
}

void check_yards(Checking& checking) {
    for_points(checking, "yards", "Yard", checking.ranch.yards,
               [](RowReader& reader, Point at, std::string name) {
                   return Yard{.name = std::move(name),
                               .at = at,
                               .capacity_bales = reader.count("capacity_bales"),
                               .all_weather = reader.yes_no("all_weather", false)};
               });
}

void check_water_and_fields(Checking& checking) {
    for_points(checking, "water", "Water", checking.ranch.water,
               [](RowReader&, Point at, std::string name) {
                   return WaterPoint{std::move(name), at};
               });
    for_points(checking, "hay_fields", "Hay field", checking.ranch.hay_fields,
               [](RowReader& reader, Point at, std::string name) {
                   return HayField{std::move(name), at, reader.number("hay_kg").value_or(0.0)};
               });
}

}  // namespace haylane
