// Nothing that can stand for what was meant is thrown away: a yard drawn as an area is its centre.
#include "core/ranch/check_shapes.h"

#include "core/geometry/boolean_ops.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

const char* const kDrawAgain = "Draw it again in the map and read the ranch again.";

void say_wrong_kind(RowReader& reader, std::string_view needed) {
    reader.drop("wrong_geometry",
                fmt::format("{} has no {}; it is not used.", reader.subject(), needed), kDrawAgain);
}

void say_repaired(RowReader& reader, const Checking& checking, const Repaired& repaired) {
    const std::string change =
        std::fabs(repaired.area_change_m2) < 1.0
            ? std::string("its area is the same")
            : fmt::format("{} {}", checking.area_text(std::fabs(repaired.area_change_m2)),
                          repaired.area_change_m2 > 0.0 ? "gained" : "lost");
    reader.warn("self_crossing_polygon",
                fmt::format("{}: its outline crosses or touches itself; it was repaired, {}.",
                            reader.subject(), change),
                "Look at the repaired shape on the map, or draw the outline again.");
}

std::optional<MultiPolygon> repaired_area(RowReader& reader, const Checking& checking,
                                          const MultiPolygon& drawn) {
    const Result<Repaired> repaired = make_valid(drawn);
    if (!repaired) {
        reader.drop("shape_not_repairable",
                    fmt::format("{}: its outline could not be repaired ({}); it is not used.",
                                reader.subject(), repaired.error().what),
                    kDrawAgain);
        return std::nullopt;
    }
    if (area_m2(repaired->shape) <= 0.0) {
        reader.drop(
            "shape_without_area",
            fmt::format("{}: its outline holds no ground; it is not used.", reader.subject()),
            kDrawAgain);
        return std::nullopt;
    }
    if (repaired->changed) say_repaired(reader, checking, *repaired);
    return repaired->shape;
}

MultiPolyline drawn_lines(const MultiPolyline& lines) {
    MultiPolyline kept;
    std::copy_if(lines.begin(), lines.end(), std::back_inserter(kept),
                 [](const Polyline& line) { return line.size() >= 2 && length_m(line) > 0.0; });
    return kept;
}

// One place for something that was drawn as more than a point.
std::optional<Point> stand_in(const RawRow& row) {
    if (const auto* points = std::get_if<std::vector<Point>>(&row.shape)) {
        if (!points->empty()) return points->front();
    }
    if (const auto* lines = std::get_if<MultiPolyline>(&row.shape)) {
        const MultiPolyline kept = drawn_lines(*lines);
        if (!kept.empty()) return point_at(kept.front(), length_m(kept.front()) / 2.0);
    }
    if (const auto* area = std::get_if<MultiPolygon>(&row.shape)) {
        if (!area->empty()) return centroid(*area);
    }
    return std::nullopt;
}

}  // namespace

std::optional<MultiPolygon> area_shape(RowReader& reader, const Checking& checking) {
    const auto* drawn = std::get_if<MultiPolygon>(&reader.row().shape);
    if (drawn == nullptr || drawn->empty()) {
        say_wrong_kind(reader, "outline (a polygon)");
        return std::nullopt;
    }
    return repaired_area(reader, checking, *drawn);
}

std::optional<Point> point_shape(RowReader& reader) {
    const RawRow& row = reader.row();
    if (const auto* point = std::get_if<Point>(&row.shape)) return *point;
    if (const auto* points = std::get_if<std::vector<Point>>(&row.shape)) {
        if (points->size() == 1) return points->front();
    }
    const std::optional<Point> place = stand_in(row);
    if (!place) {
        say_wrong_kind(reader, "place on the map (a point)");
        return std::nullopt;
    }
    reader.warn("point_expected",
                fmt::format("{} is not drawn as one point; its first point or middle is used.",
                            reader.subject()),
                "Draw it as a point where it is.");
    return place;
}

std::optional<MultiPolyline> line_shape(RowReader& reader) {
    const RawRow& row = reader.row();
    if (const auto* lines = std::get_if<MultiPolyline>(&row.shape)) {
        MultiPolyline kept = drawn_lines(*lines);
        if (!kept.empty()) return kept;
    }
    const auto* area = std::get_if<MultiPolygon>(&row.shape);
    if (area == nullptr || area->empty()) {
        say_wrong_kind(reader, "line");
        return std::nullopt;
    }
    reader.warn("line_expected",
                fmt::format("{} is drawn as an area; its outline is used.", reader.subject()),
                "Draw it as a line.");
    return boundary_lines(*area);
}

std::optional<AnyShape> any_shape(RowReader& reader, const Checking& checking) {
    const RawRow& row = reader.row();
    AnyShape shape;
    if (const auto* point = std::get_if<Point>(&row.shape)) shape.points = {*point};
    if (const auto* points = std::get_if<std::vector<Point>>(&row.shape)) shape.points = *points;
    if (const auto* lines = std::get_if<MultiPolyline>(&row.shape)) {
        shape.lines = drawn_lines(*lines);
    }
    if (const auto* drawn = std::get_if<MultiPolygon>(&row.shape); drawn && !drawn->empty()) {
        std::optional<MultiPolygon> area = repaired_area(reader, checking, *drawn);
        if (!area) return std::nullopt;
        shape.area = std::move(*area);
    }
    if (shape.points.empty() && shape.lines.empty() && shape.area.empty()) {
        say_wrong_kind(reader, "shape");
        return std::nullopt;
    }
    return shape;
}

std::string name_or_number(RowReader& reader, std::string_view what, std::size_t number) {
    std::string name = reader.text("name");
    if (!name.empty()) return name;
    name = fmt::format("{} {}", what, number);
    reader.warn("missing_name",
                fmt::format("A feature has no name; it is called \"{}\" here.", name),
                "Give it the name people use.");
    return name;
}

std::string free_name(std::string name, const std::vector<std::string>& taken, RowReader& reader) {
    const auto is_taken = [&](const std::string& candidate) {
        return std::find(taken.begin(), taken.end(), candidate) != taken.end();
    };
    if (!is_taken(name)) return name;
    int copy = 2;
    while (is_taken(fmt::format("{} ({})", name, copy))) ++copy;
    std::string other = fmt::format("{} ({})", name, copy);
    reader.warn(
        "duplicate_key",
        fmt::format("\"{}\" stands here more than once; this one is called \"{}\".", name, other),
        "Give each one a name of its own.");
    return other;
}

}  // namespace haylane
