// VACUUM INTO makes the copy: SQLite reads under its own lock and writes a whole, sound database,
// which a copy of an open file's bytes is not. Made under another name, forced to the disk,
// renamed.
#include "gis/book/keep_copy.h"

#include "core/ranch/copies_kept.h"
#include "gis/book/book_sql.h"
#include "gis/book/force_to_disk.h"

#include <algorithm>
#include <ctime>
#include <vector>

#include <fmt/format.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

Error not_kept(const fs::path& copy, const std::string& reason) {
    return {"copy_not_kept",
            fmt::format("a copy of the book could not be kept before changing it: {}", reason),
            copy.string(),
            "free some space or let the folder be written; copies_kept 0 in the settings turns "
            "copies off; nothing was changed"};
}

// The number set in the book, else the usual one. A value that makes no sense is named by `check`.
int copies_kept(GDALDataset& open) {
    const auto typed = ask_sql(open, "SELECT trim(value) FROM settings WHERE lower(trim(key)) = " +
                                         sql_text(std::string(kCopiesKept)) +
                                         " AND trim(value) <> '' ORDER BY fid DESC LIMIT 1");
    return typed ? parse_copies_kept(*typed).value_or(kUsualCopies) : kUsualCopies;
}

std::string copy_name(const fs::path& book, const std::string& note) {
    return book.stem().string() + "-" + note + ".gpkg";
}

// The dated copies, oldest first.
std::vector<fs::path> dated_copies(const fs::path& book) {
    std::vector<fs::path> copies;
    const std::string head = book.stem().string() + "-";
    std::error_code code;
    for (const auto& entry : fs::directory_iterator(copies_folder(book), code)) {
        const std::string name = entry.path().filename().string();
        if (!name.starts_with(head) || !name.ends_with(".gpkg")) continue;
        const std::string date = name.substr(head.size(), name.size() - head.size() - 5);
        if (parse_day(date)) copies.push_back(entry.path());
    }
    std::sort(copies.begin(), copies.end());
    return copies;
}

// What a program that was killed while it made a copy left lying about, once it is a day old.
void sweep(const fs::path& folder) {
    std::error_code ignored;
    const auto yesterday = fs::file_time_type::clock::now() - std::chrono::hours(24);
    for (const auto& entry : fs::directory_iterator(folder, ignored)) {
        const std::string name = entry.path().filename().string();
        const bool draft = name.starts_with(".") && name.find(".tmp.gpkg") != std::string::npos;
        if (draft && entry.last_write_time(ignored) < yesterday) fs::remove(entry, ignored);
    }
}

Result<void> write_copy(GDALDataset& open, const fs::path& copy) {
    std::error_code code;
    if (fs::exists(copy, code)) return {};
    fs::create_directories(copy.parent_path(), code);
    if (code) return fail(not_kept(copy, code.message()));
    const fs::path draft = copy.parent_path() / ("." + new_uuid().substr(0, 8) + ".tmp.gpkg");
    Result<void> done = run_sql(open, "VACUUM INTO " + sql_text(draft.string()));
    if (done && !force_to_disk(draft)) done = fail(not_kept(copy, "it cannot be forced to disk"));
    if (done) {
        fs::rename(draft, copy, code);
        if (code) done = fail(not_kept(copy, code.message()));
    }
    if (done) return {};
    for (const char* tail : {"", "-journal"}) fs::remove(draft.string() + tail, code);
    return fail(done.error().code == "copy_not_kept" ? done.error()
                                                     : not_kept(copy, done.error().what));
}

sys_days today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    ::localtime_r(&now, &local);
    return sys_days{std::chrono::year{local.tm_year + 1900} /
                    std::chrono::month{static_cast<unsigned>(local.tm_mon) + 1U} /
                    std::chrono::day{static_cast<unsigned>(local.tm_mday)}};
}

}  // namespace

fs::path copies_folder(const fs::path& book) {
    return fs::absolute(book).parent_path() / (book.stem().string() + "-copies");
}

Result<void> keep_daily_copy(GDALDataset& open, const fs::path& book, sys_days day) {
    const auto most = static_cast<std::size_t>(copies_kept(open));
    if (most == 0) return {};
    const Result<void> done =
        write_copy(open, copies_folder(book) / copy_name(book, format_day(day)));
    if (!done) return done;
    std::vector<fs::path> copies = dated_copies(book);
    std::error_code ignored;  // an old copy too many does no harm
    for (std::size_t i = 0; i + most < copies.size(); ++i) fs::remove(copies[i], ignored);
    sweep(copies_folder(book));
    return {};
}

Result<void> keep_todays_copy(GDALDataset& open, const fs::path& book) {
    return keep_daily_copy(open, book, today());
}

Result<void> keep_replaced(const fs::path& book) {
    const std::string note = "replaced-" + format_day(today()) + "-" + new_uuid().substr(0, 4);
    const fs::path copy = copies_folder(book) / copy_name(book, note);
    std::error_code code;
    fs::create_directories(copy.parent_path(), code);
    // A second name for the same file where the disk knows such, else a copy of its bytes.
    if (!code) fs::create_hard_link(book, copy, code);
    if (code) {
        code.clear();
        fs::copy_file(book, copy, code);
    }
    if (code || !force_to_disk(copy)) return fail(not_kept(copy, code.message()));
    return {};
}

}  // namespace haylane
