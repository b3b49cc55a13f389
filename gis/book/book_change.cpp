#include "gis/book/book_change.h"

#include "gis/book/book_sql.h"

#include <map>
#include <tuple>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

using Rows = std::map<std::string, std::string>;  // values by row number
using Tables = std::map<std::string, Rows>;

// A table's columns as statements need them; both empty when there is no such table.
struct Columns {
    std::string names;   // "fid", "name"
    std::string values;  // one text of all of them, as SQLite writes values
};

Columns columns_of_table(GDALDataset& book, const std::string& table) {
    Columns columns;
    OGRLayer* rows = book.ExecuteSQL(
        fmt::format("SELECT name FROM pragma_table_info({})", sql_text(table)).c_str(), nullptr,
        nullptr);
    if (rows == nullptr) return columns;
    for (const auto& row : *rows) {
        const std::string name = sql_name(row->GetFieldAsString(0));
        columns.names += (columns.names.empty() ? "" : ", ") + name;
        columns.values += (columns.values.empty() ? "quote(" : " || ', ' || quote(") + name + ")";
    }
    book.ReleaseResultSet(rows);
    return columns;
}

// SQLite writes the values itself, geometries and all, so that they come back bit for bit.
Result<Rows> rows_of(GDALDataset& book, const std::string& table) {
    Rows all;
    const std::string values = columns_of_table(book, table).values;
    if (values.empty()) return all;
    OGRLayer* rows = book.ExecuteSQL(
        fmt::format("SELECT CAST(rowid AS TEXT), {} FROM {}", values, sql_name(table)).c_str(),
        nullptr, nullptr);
    if (rows == nullptr)
        return fail({"book_damaged", fmt::format("The table {} cannot be read.", table),
                     book.GetDescription(), "Check the book with haylane check."});
    for (const auto& row : *rows) all[row->GetFieldAsString(0)] = row->GetFieldAsString(1);
    book.ReleaseResultSet(rows);
    return all;
}

Result<Tables> tables_of(const std::filesystem::path& book, const std::vector<std::string>& names) {
    Result<DatasetPtr> opened = open_book_for_update(book);
    if (!opened) return fail(opened.error());
    Tables tables;
    for (const std::string& name : names) {
        auto rows = rows_of(**opened, name);
        if (!rows) return fail(rows.error());
        tables[name] = std::move(*rows);
    }
    return tables;
}

BookChange difference(const Tables& before, const Tables& after) {
    BookChange change;
    for (const auto& [table, old_rows] : before) {
        const Rows& new_rows = after.at(table);
        for (const auto& [row, values] : old_rows) {
            const auto now = new_rows.find(row);
            const std::string then = now == new_rows.end() ? "" : now->second;
            if (then != values) change.rows.push_back({table, row, values, then});
        }
        for (const auto& [row, values] : new_rows) {
            if (!old_rows.contains(row)) change.rows.push_back({table, row, "", values});
        }
    }
    return change;
}

Result<void> put_row(GDALDataset& book, const std::string& table, const Columns& columns,
                     const std::string& row, const std::string& is, const std::string& wanted) {
    const std::string name = sql_name(table);
    const auto now =
        ask_sql(book, fmt::format("SELECT {} FROM {} WHERE rowid = {}", columns.values, name, row));
    if (!now) return fail(now.error());
    if (*now != is)
        return fail({"changed_since", "This has been changed since, by another program.",
                     fmt::format("{}, row {}", table, row), "Nothing was taken back or done."});
    if (!is.empty()) {
        auto gone = run_sql(book, fmt::format("DELETE FROM {} WHERE rowid = {}", name, row));
        if (!gone || wanted.empty()) return gone;
    }
    // Every table of a book numbers its rows by a column of its own, so that the number comes back.
    return run_sql(book,
                   fmt::format("INSERT INTO {} ({}) VALUES ({})", name, columns.names, wanted));
}

Result<void> turn(const std::filesystem::path& book, const BookChange& change, bool back) {
    Result<DatasetPtr> opened = open_book_for_update(book);
    if (!opened) return fail(opened.error());
    return in_transaction(**opened, [&]() -> Result<void> {
        std::map<std::string, Columns> columns;
        for (const RowChange& row : change.rows) {
            if (!columns.contains(row.table))
                columns[row.table] = columns_of_table(**opened, row.table);
            const auto& [is, wanted] =
                back ? std::tie(row.after, row.before) : std::tie(row.before, row.after);
            auto put = put_row(**opened, row.table, columns[row.table], row.row, is, wanted);
            if (!put) return put;
        }
        return {};
    });
}

}  // namespace

Result<BookChange> record_change(const std::filesystem::path& book,
                                 const std::vector<std::string>& tables,
                                 const std::function<Result<void>()>& work) {
    const auto before = tables_of(book, tables);
    if (!before) return fail(before.error());
    if (auto done = work(); !done) return fail(done.error());
    const auto after = tables_of(book, tables);
    if (!after) return fail(after.error());
    return difference(*before, *after);
}

Result<void> take_back(const std::filesystem::path& book, const BookChange& change) {
    return turn(book, change, true);
}

Result<void> do_again(const std::filesystem::path& book, const BookChange& change) {
    return turn(book, change, false);
}

}  // namespace haylane
