#pragma once
// From a layer's text cells to book rows in SI, and from book rows to RawRow in the ranch frame.

#include "core/base/result.h"
#include "gis/book/book_rows.h"
#include "gis/book/match_columns.h"
#include "gis/crs/frame.h"

#include <optional>
#include <string>

namespace haylane {

struct BookRows {
    std::vector<BookRow> rows;
    Problems problems;  // the layer's own first, then not_a_number and shapes'
};

// Errors: those of match_columns.
[[nodiscard]] Result<BookRows> book_rows(const RoleInfo& role, const SourceLayer& layer,
                                         const std::vector<ColumnAlias>& aliases);

// A cell as typed, not blank, in a column whose unit is known: a number in SI, or the words.
// nullopt where a number or direction is wanted and the cell is none.
[[nodiscard]] std::optional<RawValue> cell_value(const ColumnSpec& spec, const UnitScale& scale,
                                                 const std::string& cell, bool decimal_comma);

// The shape in the ranch frame.
[[nodiscard]] decltype(RawRow::shape) shape_in_frame(const LonLatShape& shape, const Frame& frame);

}  // namespace haylane
