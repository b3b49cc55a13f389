#pragma once
// What a piece of work changed in a book's tables, row by row, so that it can be taken back and
// done again.

#include "core/base/result.h"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace haylane {

// A row before and after: its values as SQL writes them, in the table's order of columns; empty =
// there was no such row.
struct RowChange {
    std::string table;
    std::string row;  // the number SQLite knows it by
    std::string before;
    std::string after;
};

struct BookChange {
    std::vector<RowChange> rows;
    [[nodiscard]] bool empty() const { return rows.empty(); }
};

// Does the work and tells what it changed in the tables named; those the book has not are passed
// over. Errors: those of the work and of open_book_for_update. Cost: both readings of the tables.
[[nodiscard]] Result<BookChange> record_change(const std::filesystem::path& book,
                                               const std::vector<std::string>& tables,
                                               const std::function<Result<void>()>& work);

// Puts the rows back as they were, or again as they were after; all or none. Errors: changed_since
// where a row is no longer as the change left it, those of open_book_for_update, book_not_written.
[[nodiscard]] Result<void> take_back(const std::filesystem::path& book, const BookChange& change);
[[nodiscard]] Result<void> do_again(const std::filesystem::path& book, const BookChange& change);

}  // namespace haylane
