#pragma once
// Finds, for each column of a file, the role's column it is and the unit its name ends in.

#include "core/base/problem.h"
#include "core/base/result.h"
#include "gis/book/roles.h"
#include "gis/book/unit_table.h"
#include "gis/vector/layer.h"

#include <cstddef>
#include <string>
#include <vector>

namespace haylane {

// One line of columns.csv: the file's own name for a column of ours.
struct ColumnAlias {
    std::string role;
    std::string column;   // "speed_mph", or "speed" with a unit
    std::string in_file;  // the heading in the file
    std::string unit;     // may be empty
};

struct ColumnUse {
    std::size_t at = 0;  // index into the layer's columns
    const ColumnSpec* spec = nullptr;
    UnitScale scale;
};

struct ColumnMatch {
    std::vector<ColumnUse> uses;  // a column not among them is unknown and only kept as text
    Problems problems;            // unknown_unit, column_twice, alias_not_found
};

// Errors: missing_required_column; unknown_unit when a required column has a unit not known.
[[nodiscard]] Result<ColumnMatch> match_columns(const RoleInfo& role, const SourceLayer& layer,
                                                const std::vector<ColumnAlias>& aliases);

// "Weight (lb)" -> "weight_lb": how headings are compared.
[[nodiscard]] std::string plain_heading(const std::string& heading);

}  // namespace haylane
