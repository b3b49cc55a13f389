#pragma once
// A role's columns as they are shown and typed in a table, in US or metric units, and the way
// between a shown cell and the book's value in SI.

#include "core/base/result.h"
#include "core/ranch/raw_ranch.h"
#include "gis/book/unit_table.h"

#include <string>
#include <string_view>
#include <vector>

namespace haylane {

struct ShownColumn {
    const ColumnSpec* spec = nullptr;
    std::string heading;    // as a folder's file would have it: "weight_lb"
    std::string_view unit;  // "lb"; empty = none
    UnitScale scale;
};

[[nodiscard]] std::vector<ShownColumn> shown_columns(std::string_view role, bool metric);
// Empty for a blank. Numbers to six digits; directions in degrees.
[[nodiscard]] std::string shown_cell(const ShownColumn& column, const RawValue& value);
// Blank for an empty text. Errors: not_a_number.
[[nodiscard]] Result<RawValue> typed_cell(const ShownColumn& column, const std::string& text);

}  // namespace haylane
