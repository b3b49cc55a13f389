#pragma once
// A ranch as read, before checking: rows by role, columns named as in the book (SI suffixes),
// geometry already in the ranch frame. Numbers were converted to SI by the reader; words are the
// user's own.

#include "core/base/problem.h"
#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"
#include "core/ranch/ranch.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace haylane {

using RawValue = std::variant<std::monostate, double, std::string>;

struct RawRow {
    std::map<std::string, RawValue> fields;  // e.g. "weight_kg" -> 580.6, "stage" -> "dry"
    std::variant<std::monostate, Point, std::vector<Point>, MultiPolyline, MultiPolygon> shape;
    std::string where;      // "herds.csv, line 3" or "pastures.geojson, feature 2"
    std::string uuid = {};  // the name it keeps for ever in a book

    // The number in a column; nullopt when blank or absent.
    [[nodiscard]] std::optional<double> number(std::string_view column) const;
    // The text in a column, trimmed; empty when blank or absent. Numbers come back as text.
    [[nodiscard]] std::string text(std::string_view column) const;
};

struct RawRanch {
    std::string name;
    double latitude_rad = 0.0;
    std::map<std::string, std::vector<RawRow>> roles;  // role name -> rows, in file order
    std::optional<TerrainData> terrain;
};

// What a column of a role is, for readers and for checking.
enum class Dimension {
    text,
    number,       // plain number
    ratio,        // book column ends in _ratio; users write _pct
    length,       // _m; users _ft, _m (depth: _in)
    mass,         // _kg; users _lb, _kg, _oz
    volume,       // _l; users _gal (US), _l
    per_area,     // _kg_per_m2; users _lb_ac, _kg_ha
    bales_area,   // _bales_per_m2; users _bales_ac, _bales_ha
    per_length,   // _kg_per_m; users _lb_per_ft, _kg_per_m
    speed,        // _m_per_s; users _mph, _kmh
    power,        // _w; users _hp, _kw
    duration,     // _s; users minutes: "minutes", "load_min_per_bale", "hookup_min"
    temperature,  // _c; users _f, _c
    price_mass,   // _per_kg; users _per_ton (short), _per_t, _per_lb
    yes_no,
    date,       // ISO 8601, one day
    date_mark,  // ISO 8601 or MM-DD
    direction   // _rad; degrees or compass letters
};

// Users write base + "_" + unit + tail. A base that names its unit by itself ("minutes", "tons")
// has that unit as `bare_unit` and is written alone.
struct ColumnSpec {
    std::string_view role;
    std::string_view base;  // the name without its unit, e.g. "weight"
    std::string_view book;  // the name in the book and in RawRow, e.g. "weight_kg"
    Dimension dimension = Dimension::text;
    bool required = false;
    std::string_view tail = {};       // what follows the unit, e.g. "_min" of "lay_lb_per_ft_min"
    std::string_view bare_unit = {};  // "min" or "ton"; empty for all other columns
};

// Every column of every role, in the order of the manual.
[[nodiscard]] const std::vector<ColumnSpec>& column_specs();

}  // namespace haylane
