// VACUUM INTO makes the copy: SQLite reads under its own lock and writes a whole, sound database,
// which a copy of an open file's bytes is not. Made under another name, forced to the disk,
// renamed.
#include "gis/book/keep_copy.h"

#include "core/ranch/settings.h"
#include "gis/book/book_sql.h"
#include "gis/book/force_to_disk.h"

#include <algorithm>
#include <charconv>
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
std::size_t copies_kept(GDALDataset& open) {
    const Settings usual;
    const auto info = find_setting("copies_kept");
    const auto typed =
        ask_sql(open,
                "SELECT value FROM settings WHERE lower(trim(key)) = 'copies_kept' AND "
                "trim(value) <> '' ORDER BY fid DESC LIMIT 1");
    double kept = usual.copies_kept;
    if (info && typed && !typed->empty()) {
        double value = 0.0;
        const char* const end = typed->data() + typed->size();
        const auto read = std::from_chars(typed->data(), end, value);
        const bool sound = read.ec == std::errc() && read.ptr == end &&
                           value >= info->info->least_si && value <= info->info->most_si;
        if (sound) kept = value;
    }
    return static_cast<std::size_t>(kept);
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
    const std::size_t most = copies_kept(open);
    if (most == 0) return {};
    const Result<void> done =
        write_copy(open, copies_folder(book) / copy_name(book, format_day(day)));
    if (!done) return done;
    std::vector<fs::path> copies = dated_copies(book);
    std::error_code ignored;  // an old copy too many does no harm
    for (std::size_t i = 0; i + most < copies.size(); ++i) fs::remove(copies[i], ignored);
    return {};
}

Result<void> keep_todays_copy(GDALDataset& open, const fs::path& book) {
    return keep_daily_copy(open, book, today());
}

Result<void> keep_named_copy(GDALDataset& open, const fs::path& book, const std::string& note) {
    return write_copy(open, copies_folder(book) / copy_name(book, note));
}

}  // namespace haylane
