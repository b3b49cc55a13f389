// GDAL opens a GeoPackage's file by itself before SQLite does, and closing any handle on a file
// drops all of a process's locks on it (sqlite.org, "How To Corrupt An SQLite Database File", 2.2).
// Hence one mutex for all books of the process, held for as long as one is open.
#include "gis/book/open_book.h"

#include "gis/book/book_sql.h"
#include "gis/book/keep_copy.h"
#include "gis/book/roles.h"
#include "gis/book/write_book.h"

#include <array>
#include <fstream>
#include <mutex>

#include <fmt/format.h>
#include <ogrsf_frmts.h>
#include <unistd.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

constexpr const char* kWait_ms = "10000";

std::shared_ptr<void> only_one_open() {
    static std::recursive_mutex mutex;
    return std::make_shared<std::unique_lock<std::recursive_mutex>>(mutex);
}

bool contains(const std::string& text, const char* part) {
    return text.find(part) != std::string::npos;
}

Error with_place(Error error, const fs::path& book) {
    if (error.code == "book_damaged") return damaged_book(book, error.what);
    if (error.where.empty()) error.where = book.string();
    return error;
}

bool starts_like_sqlite(const fs::path& book) {
    std::array<char, 16> head{};
    std::ifstream(book, std::ios::binary).read(head.data(), head.size());
    return std::string(head.data(), 15) == "SQLite format 3";
}

bool may_write(const fs::path& book) {
    const fs::path folder = fs::absolute(book).parent_path();
    return ::access(book.c_str(), W_OK) == 0 && ::access(folder.c_str(), W_OK) == 0;
}

Result<DatasetPtr> open(const fs::path& book, OpenAs mode, const std::shared_ptr<void>& turn) {
    const GdalOption full("OGR_SQLITE_SYNCHRONOUS", "FULL");
    const GdalOption rollback("OGR_SQLITE_JOURNAL", "DELETE");
    const GdalOption wait("SQLITE_BUSY_TIMEOUT", kWait_ms);
    // A book read may come from anywhere; one that is changed needs its spatial indexes' triggers.
    const GdalOption distrust("OGR_SQLITE_PRAGMA",
                              mode == OpenAs::read ? "trusted_schema=0" : nullptr);
    Result<DatasetPtr> opened = open_geopackage(book, mode);
    if (opened) {
        opened->get_deleter().held = turn;
        return opened;
    }
    Error error = opened.error();
    if (error.code == "file_missing") return fail(error);
    if (contains(error.what, "locked")) return fail(with_place(book_error(error.what), book));
    if (starts_like_sqlite(book)) return fail(damaged_book(book, error.what));
    error.remedy = damaged_book(book, "").remedy;
    return fail(error);
}

// A journal beside the book: its last writer was cut off, or is at work just now. To open the book
// for update undoes what was left half done, or does nothing.
Result<void> finish_cut_off_change(const fs::path& book, const std::shared_ptr<void>& turn) {
    std::error_code code;
    const fs::path journal = book.string() + "-journal";
    if (fs::file_size(journal, code) == 0 || code) return {};
    if (!may_write(book)) {
        return fail({"book_unfinished",
                     fmt::format("the last change to {} was cut off and must be undone first, but "
                                 "the file cannot be written",
                                 book.filename().string()),
                     book.string(),
                     fmt::format("copy it and {} together to a disk that can be written, and open "
                                 "it there",
                                 journal.filename().string())});
    }
    Result<DatasetPtr> opened = open(book, OpenAs::update, turn);
    if (!opened) return fail(opened.error());
    const auto read = ask_sql(**opened, "SELECT count(*) FROM sqlite_master");
    if (!read) return fail(with_place(read.error(), book));
    return {};
}

Result<void> check_sound(GDALDataset& dataset, const fs::path& book) {
    const Result<std::string> found = ask_sql(dataset, "PRAGMA quick_check(1)");
    if (!found) return fail(with_place(found.error(), book));
    // "*** in database main ***", and what was found in a line of its own.
    if (*found != "ok")
        return fail(damaged_book(book, shown(found->substr(found->rfind('\n') + 1))));
    // A query (a view or a virtual table) in the place of a table could run for ever.
    std::string names = "'haylane_book'";
    for (const RoleInfo& role : role_infos()) names += ", " + sql_text(std::string(role.name));
    const Result<std::string> query =
        ask_sql(dataset,
                "SELECT name FROM sqlite_master WHERE rootpage = 0 AND type IN ('view', "
                "'table') AND lower(name) IN (" +
                    names + ")");
    if (!query) return fail(with_place(query.error(), book));
    if (!query->empty())
        return fail(damaged_book(book, fmt::format("'{}' is a query, not a table", shown(*query))));
    const Result<std::string> notes = ask_sql(
        dataset, "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'haylane_book'");
    if (!notes) return fail(with_place(notes.error(), book));
    if (!notes->empty()) return {};
    return fail({"not_a_book",
                 fmt::format("{} is a GeoPackage, but no ranch book", book.filename().string()),
                 book.string(), "make a book with: haylane new BOOK.gpkg --from FOLDER"});
}

// Triggers other than those of spatial indexes, of tables of tiles (terrain), of the format itself
// and of GDAL's counts of features would change rows that nobody asked to change.
Result<void> check_triggers(GDALDataset& dataset, const fs::path& book) {
    std::string others = "SELECT name FROM sqlite_master WHERE type = 'trigger'";
    for (const char* known : {"rtree\\_%", "gpkg\\_%", "trigger\\_%\\_feature\\_count\\_%",
                              "%\\_zoom\\_%", "%\\_tile\\_column\\_%", "%\\_tile\\_row\\_%"})
        others += std::string(" AND name NOT LIKE '") + known + "' ESCAPE '\\'";
    const Result<std::string> found = ask_sql(dataset, others);
    if (!found) return fail(with_place(found.error(), book));
    if (found->empty()) return {};
    return fail(
        {"book_has_triggers",
         fmt::format("{} holds a trigger, '{}', which would change rows by itself; the book "
                     "is only read",
                     book.filename().string(), shown(*found)),
         book.string(), "take the trigger out with the program that put it in"});
}

Result<void> check_schema(GDALDataset& dataset, const fs::path& book) {
    const Result<std::string> schema = book_note(dataset, "schema_version");
    if (!schema) return fail(with_place(schema.error(), book));
    if (schema->size() <= 6 && std::atoi(schema->c_str()) <= kBookSchema) return {};
    return fail({"newer_book",
                 fmt::format("{} was made by a newer version and can only be read",
                             book.filename().string()),
                 book.string(), "use the newer version to change it"});
}

Result<DatasetPtr> open_sound(const fs::path& book, OpenAs mode) {
    const std::shared_ptr<void> turn = only_one_open();
    const Result<void> finished = finish_cut_off_change(book, turn);
    if (!finished) return fail(finished.error());
    Result<DatasetPtr> opened = open(book, mode, turn);
    if (!opened) return fail(opened.error());
    const Result<void> sound = check_sound(**opened, book);
    if (!sound) return fail(sound.error());
    return opened;
}

}  // namespace

Error damaged_book(const fs::path& book, const std::string& reason) {
    return {"book_damaged", fmt::format("{} is damaged: {}", book.filename().string(), reason),
            book.string(),
            fmt::format("save what can be read with: haylane check {} --repair NEW.gpkg; or use "
                        "one of the dated copies in {}",
                        book.filename().string(), copies_folder(book).filename().string())};
}

Error book_error(const std::string& reason) {
    if (contains(reason, "locked")) {
        return {"book_in_use", "another program is writing to the ranch book", "",
                "wait until it is done, or close it, then do it again; nothing was changed"};
    }
    if (contains(reason, "readonly") || contains(reason, "read-only")) {
        return {"book_read_only", "the ranch book can be read, but not changed", "",
                "copy it to a disk and folder that you may write to"};
    }
    if (contains(reason, "malformed") || contains(reason, "not a database")) {
        return {"book_damaged", reason, "",
                "save what can be read with: haylane check BOOK --repair NEW.gpkg"};
    }
    return {"book_not_written", "the ranch book could not be changed: " + reason, "",
            "check the disk's free space and that no other program holds the book"};
}

Result<DatasetPtr> open_book_to_read(const fs::path& book) {
    return open_sound(book, OpenAs::read);
}

Result<DatasetPtr> open_book_for_update(const fs::path& book) {
    std::error_code code;
    if (fs::is_regular_file(book, code) && !may_write(book)) {
        Error error = book_error("readonly");
        error.what = fmt::format(
            "{} can be read, but not changed: the file or its folder is "
            "write-protected",
            book.filename().string());
        return fail(with_place(std::move(error), book));
    }
    Result<DatasetPtr> opened = open_sound(book, OpenAs::update);
    if (!opened) return fail(opened.error());
    for (const auto check : {check_schema, check_triggers, keep_todays_copy}) {
        const Result<void> good = check(**opened, book);
        if (!good) return fail(good.error());
    }
    return opened;
}

}  // namespace haylane
