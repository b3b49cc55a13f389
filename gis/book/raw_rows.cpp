// Dates, yes/no and words stay as typed: check_ranch reads and judges them. Numbers must be whole
// numbers or decimals; anything else is named and left blank, never guessed.
#include "gis/book/raw_rows.h"

#include "core/base/units.h"
#include "gis/book/fit_shape.h"
#include "gis/gdal/gdal_session.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/file_text.h"

#include <array>
#include <cmath>
#include <optional>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

// Degrees or one of the 16 compass points, as radians clockwise from north.
std::optional<double> parse_direction(const std::string& cell, bool decimal_comma) {
    static constexpr std::array<const char*, 16> kPoints = {"n",  "nne", "ne", "ene", "e",  "ese",
                                                            "se", "sse", "s",  "ssw", "sw", "wsw",
                                                            "w",  "wnw", "nw", "nnw"};
    const std::string low = lower_ascii(cell);
    for (std::size_t i = 0; i < kPoints.size(); ++i) {
        if (low == kPoints[i]) return units::rad_from_deg(22.5 * static_cast<double>(i));
    }
    const auto degrees = parse_number(cell, decimal_comma);
    if (!degrees || *degrees < 0.0 || *degrees > 360.0) return std::nullopt;
    return units::rad_from_deg(std::fmod(*degrees, 360.0));
}

struct Converter {
    const SourceLayer& layer;
    Problems& problems;

    RawValue value(const ColumnUse& use, const SourceRow& row) const {
        const std::string cell = trimmed(row.cells[use.at]);
        if (cell.empty()) return std::monostate{};
        const auto value = cell_value(*use.spec, use.scale, cell, layer.decimal_comma);
        if (value) return *value;
        if (use.spec->dimension == Dimension::direction) {
            report(use, row, cell, "is no direction",
                   "write degrees (0 to 360) or a compass point: NW");
        } else {
            report(use, row, cell, "is not a number",
                   "write digits only: no words, no units, no thousands separators");
        }
        return std::monostate{};
    }

    void report(const ColumnUse& use, const SourceRow& row, const std::string& cell,
                const char* what, const char* remedy) const {
        problems.push_back({"not_a_number", Severity::error, row.where,
                            fmt::format("column '{}': '{}' {}; the cell is not used",
                                        shown(layer.columns[use.at]), shown(cell), what),
                            remedy});
    }
};

std::string as_entered(const SourceLayer& layer, const SourceRow& row) {
    nlohmann::ordered_json cells = nlohmann::ordered_json::object();
    for (std::size_t i = 0; i < layer.columns.size(); ++i) {
        if (!row.cells[i].empty()) cells[layer.columns[i]] = row.cells[i];
    }
    return cells.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

std::string row_name(const RoleInfo& role, const BookRow& row) {
    for (const ColumnSpec* spec : columns_of(role.name)) {
        const auto found = row.fields.find(std::string(spec->book));
        if (found == row.fields.end()) return {};
        const auto* text = std::get_if<std::string>(&found->second);
        return text == nullptr ? std::string() : *text;
    }
    return {};
}

}  // namespace

std::optional<RawValue> cell_value(const ColumnSpec& spec, const UnitScale& scale,
                                   const std::string& cell, bool decimal_comma) {
    if (!is_numeric(spec.dimension)) return cell;
    if (spec.dimension == Dimension::direction) {
        const auto rad = parse_direction(cell, decimal_comma);
        return rad ? std::optional<RawValue>(*rad) : std::nullopt;
    }
    const auto number = parse_number(cell, decimal_comma);
    return number ? std::optional<RawValue>(scale.to_si(*number)) : std::nullopt;
}

Result<BookRows> book_rows(const RoleInfo& role, const SourceLayer& layer,
                           const std::vector<ColumnAlias>& aliases) {
    Result<ColumnMatch> match = match_columns(role, layer, aliases);
    if (!match) return fail(match.error());
    BookRows out;
    out.problems = layer.problems;
    out.problems.insert(out.problems.end(), match->problems.begin(), match->problems.end());
    const Converter converter{layer, out.problems};
    for (const SourceRow& source : layer.rows) {
        BookRow row;
        row.read_from = source.where;
        row.as_entered = as_entered(layer, source);
        for (const ColumnUse& use : match->uses) {
            RawValue value = converter.value(use, source);
            if (!std::holds_alternative<std::monostate>(value)) {
                row.fields[std::string(use.spec->book)] = std::move(value);
            }
        }
        row.shape =
            fit_shape(source.shape, {role.shape, row_name(role, row), source.where}, out.problems);
        out.rows.push_back(std::move(row));
    }
    if (layer.rows.empty()) {
        out.problems.push_back({"no_rows", Severity::warning, layer.file,
                                "the file holds no rows under its heading",
                                "fill it in or remove it"});
    }
    return out;
}

decltype(RawRow::shape) shape_in_frame(const LonLatShape& shape, const Frame& frame) {
    const auto line = [&frame](const LonLatLine& places) {
        Polyline points;
        for (const LonLat place : places) points.push_back(frame.to_frame(place));
        return points;
    };
    if (!shape.polygons.empty()) {
        MultiPolygon areas;
        for (const LonLatPolygon& polygon : shape.polygons) {
            Polygon area;
            for (std::size_t i = 0; i < polygon.rings.size(); ++i) {
                if (i == 0) {
                    area.outer = line(polygon.rings[i]);
                } else {
                    area.holes.push_back(line(polygon.rings[i]));
                }
            }
            areas.push_back(std::move(area));
        }
        return areas;
    }
    if (!shape.lines.empty()) {
        MultiPolyline lines;
        for (const LonLatLine& places : shape.lines) lines.push_back(line(places));
        return lines;
    }
    if (shape.points.size() == 1) return frame.to_frame(shape.points.front());
    if (!shape.points.empty()) return line(shape.points);
    return std::monostate{};
}

}  // namespace haylane
