#include "gis/book/edit_cells.h"

#include "core/base/units.h"
#include "gis/book/raw_rows.h"
#include "gis/book/roles.h"
#include "gis/vector/file_text.h"

#include <fmt/format.h>

namespace haylane {

namespace {

std::string heading_of(const ColumnSpec& spec, std::string_view unit) {
    if (!spec.bare_unit.empty() || unit.empty()) return std::string(spec.base);
    return fmt::format("{}_{}{}", spec.base, unit, spec.tail);
}

}  // namespace

std::vector<ShownColumn> shown_columns(std::string_view role, bool metric) {
    std::vector<ShownColumn> columns;
    for (const ColumnSpec* spec : columns_of(role)) {
        const std::string_view unit =
            spec->bare_unit.empty() ? usual_unit(spec->dimension, metric) : spec->bare_unit;
        columns.push_back({spec, heading_of(*spec, unit), unit,
                           find_unit(spec->dimension, unit).value_or(UnitScale{})});
    }
    return columns;
}

std::string shown_cell(const ShownColumn& column, const RawValue& value) {
    if (const auto* text = std::get_if<std::string>(&value)) return *text;
    const auto* number = std::get_if<double>(&value);
    if (number == nullptr) return {};
    if (column.spec->dimension == Dimension::direction)
        return fmt::format("{:.6g}", units::deg_from_rad(*number));
    return fmt::format("{:.6g}", column.scale.from_si(*number));
}

Result<RawValue> typed_cell(const ShownColumn& column, const std::string& text) {
    const std::string cell = trimmed(text);
    if (cell.empty()) return {};
    auto value = cell_value(*column.spec, column.scale, cell, false);
    if (value) return std::move(*value);
    return fail({"not_a_number", fmt::format("'{}' is no number.", cell), column.heading,
                 column.spec->dimension == Dimension::direction
                     ? "Write degrees (0 to 360) or a compass point: NW."
                     : "Write digits only: no words, no units, no thousands separators."});
}

}  // namespace haylane
