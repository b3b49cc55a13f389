// A range of row numbers that cannot be copied is halved until single rows are left.
#include "gis/book/salvage_tables.h"

#include "gis/book/book_sql.h"

#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

constexpr std::int64_t kFirstRow = -9'000'000'000'000'000'000;
constexpr std::int64_t kMostRows = 10'000'000;
constexpr std::int64_t kRowsTried = 100'000;  // where nothing says how many there are
constexpr int kMostFailures = 4000;           // of one table; then the rest of it is given up

}  // namespace

Result<void> SalvageTables::begin() {
    for (const char* pragma : {"PRAGMA synchronous = OFF", "PRAGMA writable_schema = ON"}) {
        const Result<void> done = run_sql(book_, pragma);
        if (!done) return done;
    }
    Result<void> done = attach();
    if (!done) return done;
    const auto tables =
        ask_sql_list(book_,
                     "SELECT table_name FROM gpkg_contents WHERE data_type IN ('features', "
                     "'attributes') AND table_name <> 'haylane_book' ORDER BY rowid");
    if (!tables) return fail(tables.error());
    tables_ = *tables;
    return describe_again();
}

Result<SalvageReport> SalvageTables::all() {
    SalvageReport report;
    for (const std::string& table : tables_) {
        Result<SalvagedTable> one = save(table);
        if (!one) return fail(one.error());
        report.tables.push_back(*one);
    }
    const auto others = ask_sql_list(
        book_,
        "SELECT name FROM old.sqlite_master WHERE type = 'table' AND name NOT IN (SELECT name "
        "FROM main.sqlite_master) AND name NOT LIKE 'rtree%' AND name NOT LIKE 'gpkg%' AND "
        "name NOT LIKE 'sqlite%' AND name <> 'terrain'");
    if (others) report.left_out = *others;
    return report;
}

// What the damaged book says of itself; empty when it cannot be read.
std::string SalvageTables::note(const std::string& key) {
    return ask_sql(book_, "SELECT value FROM old.haylane_book WHERE key = " + sql_text(key))
        .value_or("");
}

Result<void> SalvageTables::attach() {
    return run_sql(book_, "ATTACH DATABASE " + sql_text(copy_.string()) + " AS old");
}

// A table whose description is garbled gets that of a new book's.
Result<void> SalvageTables::describe_again() {
    bool changed = false;
    for (const std::string& table : tables_) {
        if (!columns(table, "old").empty()) continue;
        const std::string name = sql_text(table);
        changed = run_sql(book_,
                          "UPDATE old.sqlite_master SET sql = (SELECT sql FROM "
                          "main.sqlite_master WHERE type = 'table' AND name = " +
                              name + ") WHERE type = 'table' AND name = " + name)
                      .has_value() ||
                  changed;
    }
    if (!changed) return {};
    const Result<void> off = run_sql(book_, "DETACH DATABASE old");
    return off ? attach() : off;
}

std::vector<std::string> SalvageTables::columns(const std::string& table,
                                                const std::string& schema) {
    return ask_sql_list(book_, fmt::format("SELECT name FROM pragma_table_info({}, '{}')",
                                           sql_text(table), schema))
        .value_or(std::vector<std::string>{});
}

// The highest row number there can be: numbers are never used again. -1 where neither the list of
// them nor the table's end can be read.
std::int64_t SalvageTables::last_row(const std::string& table) {
    std::int64_t last = -1;
    for (const std::string& sql :
         {"SELECT seq FROM old.sqlite_sequence WHERE name = " + sql_text(table),
          "SELECT max(rowid) FROM old." + sql_name(table)}) {
        const Result<std::string> text = ask_sql(book_, sql);
        if (!text) continue;
        last = std::max<std::int64_t>(last, std::strtoll(text->c_str(), nullptr, 10));
    }
    return std::min(last, kMostRows);
}

Result<SalvagedTable> SalvageTables::save(const std::string& table) {
    SalvagedTable out{.table = table};
    const std::vector<std::string> old_columns = columns(table, "old");
    const std::string is_table =
        ask_sql(book_,
                "SELECT 1 FROM old.sqlite_master WHERE rootpage > 0 AND name = " + sql_text(table))
            .value_or("");
    if (old_columns.empty() || is_table.empty()) {
        out.all_lost = true;
        return out;
    }
    // Columns of the book's later life, or of the user's own.
    std::vector<std::string> wanted;
    for (const std::string& column : old_columns) wanted.push_back(sql_name(column));
    const auto types = ask_sql_list(
        book_, fmt::format("SELECT type FROM pragma_table_info({}, 'old')", sql_text(table)));
    for (std::size_t i = 0; types && i < old_columns.size() && i < types->size(); ++i) {
        const std::vector<std::string> there = columns(table, "main");
        if (std::find(there.begin(), there.end(), old_columns[i]) != there.end()) continue;
        const Result<void> added =
            run_sql(book_, fmt::format("ALTER TABLE main.{} ADD COLUMN {} {}", sql_name(table),
                                       wanted[i], sql_name((*types)[i])));
        if (!added) return fail(added.error());
    }
    failures_ = 0;
    copy_rows(table, wanted, kFirstRow, 0);  // only other programs number rows so
    const std::int64_t last = last_row(table);
    if (last != 0) save_range(out, wanted, 1, last > 0 ? last : kRowsTried);
    const Result<std::string> count =
        ask_sql(book_, "SELECT count(*) FROM main." + sql_name(table));
    if (!count) return fail(count.error());
    out.saved = std::strtoll(count->c_str(), nullptr, 10);
    out.all_lost = last < 0 && out.saved == 0;
    return out;
}

bool SalvageTables::copy_rows(const std::string& table, const std::vector<std::string>& columns,
                              std::int64_t from, std::int64_t to) {
    const std::string list = fmt::format("{}", fmt::join(columns, ", "));
    return run_sql(book_, fmt::format("INSERT INTO main.{0} ({1}) SELECT {1} FROM old.{0} WHERE "
                                      "rowid BETWEEN {2} AND {3}",
                                      sql_name(table), list, from, to))
        .has_value();
}

// Both ends included.
void SalvageTables::save_range(SalvagedTable& out, const std::vector<std::string>& columns,
                               std::int64_t from, std::int64_t to) {
    if (failures_ >= kMostFailures) {
        out.lost += to - from + 1;
        return;
    }
    if (copy_rows(out.table, columns, from, to)) return;
    ++failures_;
    if (from < to) {
        const std::int64_t middle = from + (to - from) / 2;
        save_range(out, columns, from, middle);
        save_range(out, columns, middle + 1, to);
        return;
    }
    std::vector<std::string> plain = columns;
    std::erase(plain, sql_name("geom"));
    if (plain.size() < columns.size() && copy_rows(out.table, plain, from, to)) {
        ++out.without_shape;
    } else {
        ++out.lost;
    }
}

}  // namespace haylane
