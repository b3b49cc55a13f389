// A row is known by its cells as they were typed, so that a file given twice adds nothing.
#include "gis/book/trial_store.h"

#include "gis/book/book_sql.h"
#include "gis/gdal/gdal_session.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

// The table of an earlier book has other columns, and keeps them.
Result<void> fit_table(GDALDataset& book) {
    std::vector<std::string> columns = {"uuid TEXT", "as_entered TEXT", "read_from TEXT"};
    for (const ColumnSpec& spec : column_specs())
        if (spec.role == "trials")
            columns.push_back(
                fmt::format("{} {}", spec.book, is_numeric(spec.dimension) ? "REAL" : "TEXT"));
    return add_columns(book, "trials", columns);
}

Result<void> add(GDALDataset& book, const BookRow& row) {
    std::vector<std::string> names = {"uuid", "as_entered", "read_from"};
    std::vector<std::string> values = {sql_text(new_uuid()), sql_text(row.as_entered),
                                       sql_text(row.read_from)};
    for (const auto& [column, value] : row.fields) {
        const auto* number = std::get_if<double>(&value);
        const auto* text = std::get_if<std::string>(&value);
        if (number == nullptr && text == nullptr) continue;
        names.push_back(column);
        values.push_back(number != nullptr ? fmt::format("{}", *number) : sql_text(*text));
    }
    return run_sql(book, fmt::format("INSERT INTO trials ({}) VALUES ({})", fmt::join(names, ", "),
                                     fmt::join(values, ", ")));
}

}  // namespace

Result<TrialsKept> keep_trials(const std::filesystem::path& book,
                               const std::vector<BookRow>& rows) {
    Result<DatasetPtr> opened = open_book_for_update(book);
    if (!opened) return fail(opened.error());
    TrialsKept kept;
    const Result<void> done = in_transaction(**opened, [&]() -> Result<void> {
        Result<void> good = fit_table(**opened);
        for (const BookRow& row : rows) {
            if (!good) return good;
            const auto there = ask_sql(
                **opened, "SELECT 1 FROM trials WHERE as_entered = " + sql_text(row.as_entered));
            if (!there) return fail(there.error());
            if (!there->empty()) {
                ++kept.known;
                continue;
            }
            ++kept.added;
            good = add(**opened, row);
        }
        return good;
    });
    if (!done) return fail(done.error());
    return kept;
}

}  // namespace haylane
