#pragma once
// Puts trials of rigs into a ranch book, where they become the rigs' own figures.

#include "core/base/result.h"
#include "gis/book/book_rows.h"

#include <filesystem>
#include <vector>

namespace haylane {

struct TrialsKept {
    int added = 0;
    int known = 0;  // rows that the book already held, cell by cell
};

// All rows or none. Rows of the role `trials`; what is wrong with them is kept too, and named
// whenever the book is read. Errors: those of open_book_for_update, book_not_written.
[[nodiscard]] Result<TrialsKept> keep_trials(const std::filesystem::path& book,
                                             const std::vector<BookRow>& rows);

}  // namespace haylane
