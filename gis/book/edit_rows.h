#pragma once
// Changes rows of a book's role tables: cells, shapes, new rows and rows taken out, all of it or
// nothing. A name that is changed is changed wherever other rows use it.

#include "core/base/result.h"
#include "core/ranch/raw_ranch.h"
#include "gis/book/raw_rows.h"
#include "gis/book/roles.h"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct RowEdit {
    std::string role;
    std::string uuid;  // empty = a new row
    bool take_out = false;
    std::string into = {};  // of a row taken out: the name that others are to speak of instead
    std::map<std::string, RawValue> fields;    // by book column, SI; a blank empties the cell
    std::map<std::string, std::string> typed;  // heading and text, kept as entered
    std::optional<decltype(RawRow::shape)> shape = std::nullopt;  // ranch frame
};

// What the reading of the folder had said of a changed row is forgotten: the row is judged anew.
// Errors: unknown_role, row_gone, name_taken, name_missing, those of open_book_for_update,
// book_not_written.
[[nodiscard]] Result<void> edit_rows(const std::filesystem::path& book,
                                     const std::vector<RowEdit>& edits);

// Rows as read from a file, as new rows.
[[nodiscard]] std::vector<RowEdit> edits_of(const std::string& role, const BookRows& rows,
                                            const Frame& frame);

// Every table that edit_rows may change.
[[nodiscard]] const std::vector<std::string>& tables_of_edits();

}  // namespace haylane
