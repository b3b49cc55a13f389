#include "gis/vector/csv_layer.h"

#include "gis/gdal/gdal_session.h"
#include "gis/vector/csv_table.h"
#include "gis/vector/file_text.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

std::size_t column_named(const std::vector<std::string>& columns,
                         std::initializer_list<const char*> names) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const std::string low = lower_ascii(columns[i]);
        if (std::find(names.begin(), names.end(), low) != names.end()) return i;
    }
    return kNone;
}

// Puts the point on the row, or says why it cannot.
void place(SourceRow& row, std::size_t lat, std::size_t lon, SourceLayer& layer) {
    const std::string lat_text = trimmed(row.cells[lat]);
    const std::string lon_text = trimmed(row.cells[lon]);
    if (lat_text.empty() && lon_text.empty()) return;
    const auto y = parse_number(lat_text, layer.decimal_comma);
    const auto x = parse_number(lon_text, layer.decimal_comma);
    if (!x || !y) {
        layer.problems.push_back(
            {"position_unreadable", Severity::error, row.where,
             fmt::format("'{}, {}' is no position in decimal degrees", shown(lat_text),
                         shown(lon_text)),
             "write latitude and longitude as decimal degrees: 42.87, -100.55"});
        return;
    }
    if (!on_earth({*x, *y})) {
        layer.problems.push_back(
            {"coordinates_out_of_range", Severity::error, row.where,
             fmt::format("latitude {} and longitude {} are not on the earth", *y, *x),
             "check whether the latitude and longitude columns are exchanged"});
        return;
    }
    if (!has_fix({*x, *y})) {
        layer.problems.push_back({"no_fix", Severity::warning, row.where,
                                  "position 0, 0 means that the receiver had no fix; not used",
                                  "give the position, or remove the row"});
        return;
    }
    row.shape.points.push_back({*x, *y});
}

}  // namespace

std::optional<double> parse_number(const std::string& cell, bool decimal_comma) {
    std::string text = trimmed(cell);
    if (decimal_comma && std::count(text.begin(), text.end(), ',') == 1 &&
        text.find('.') == std::string::npos) {
        std::replace(text.begin(), text.end(), ',', '.');
    }
    if (text.starts_with('+')) text.erase(0, 1);
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (text.empty() || error != std::errc{} || stop != end || !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

Result<SourceLayer> read_csv_layer(const std::filesystem::path& file) {
    Result<CsvTable> table = read_csv(file);
    if (!table) return fail(table.error());
    SourceLayer layer;
    layer.name = file.stem().string();
    layer.file = file.filename().string();
    layer.columns = table->header;
    layer.decimal_comma = table->separator == ';';
    layer.problems = std::move(table->problems);
    const std::size_t lat = column_named(layer.columns, {"lat", "latitude"});
    const std::size_t lon = column_named(layer.columns, {"lon", "lng", "long", "longitude"});
    layer.spatial = lat != kNone && lon != kNone;
    for (CsvRow& csv_row : table->rows) {
        SourceRow row;
        row.cells = std::move(csv_row.cells);
        row.where = fmt::format("{}, line {}", layer.file, csv_row.line);
        if (layer.spatial) place(row, lat, lon, layer);
        layer.rows.push_back(std::move(row));
    }
    return layer;
}

}  // namespace haylane
