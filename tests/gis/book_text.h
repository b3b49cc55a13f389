#pragma once
// All that a book's own tables hold as one text, to compare books by: values as SQLite itself
// quotes them (sqlite.org, "Built-In Scalar SQL Functions": quote()), shapes too.

#include "gis/book/book_sql.h"

#include <filesystem>
#include <string>
#include <vector>

#include <ogrsf_frmts.h>

namespace haylane {

inline std::string book_text(const std::filesystem::path& book) {
    auto open = open_book_for_update(book);
    if (!open) return "no book: " + open.error().what;
    std::vector<std::string> tables;
    OGRLayer* names = (*open)->ExecuteSQL(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND "
        "name NOT LIKE 'gpkg%' AND name NOT LIKE 'rtree%' ORDER BY name",
        nullptr, nullptr);
    for (const auto& row : *names) tables.emplace_back(row->GetFieldAsString(0));
    (*open)->ReleaseResultSet(names);
    std::string text;
    for (const std::string& table : tables) {
        const std::string columns =
            ask_sql(**open,
                    "SELECT group_concat('quote(\"' || name || '\")', '||') FROM "
                    "pragma_table_info('" +
                        table + "')")
                .value_or("");
        const std::string rows =
            ask_sql(**open, "SELECT group_concat(r, '; ') FROM (SELECT " + columns + " AS r FROM " +
                                table + " ORDER BY rowid)")
                .value_or("unreadable");
        if (!rows.empty()) text += table + ": " + rows + "\n";
    }
    return text;
}

}  // namespace haylane
