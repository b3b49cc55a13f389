// A copy of the damaged file is attached to a new, empty book, and SQLite copies ranges of row
// numbers; a range that fails is halved until single rows are left.
#include "gis/book/salvage_book.h"

#include "gis/book/book_sql.h"
#include "gis/book/damaged_copy.h"
#include "gis/book/force_to_disk.h"
#include "gis/book/write_book.h"
#include "gis/raster/book_terrain.h"

#include <algorithm>
#include <cstdlib>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

constexpr std::int64_t kMostRows = 10'000'000;
constexpr int kMostFailures = 4000;  // of one table; then the rest of it is given up

class Salvage {
  public:
    Salvage(GDALDataset& book, fs::path copy) : book_(book), copy_(std::move(copy)) {}

    Result<void> begin() {
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

    Result<SalvageReport> all() {
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
    std::string note(const std::string& key) {
        return ask_sql(book_, "SELECT value FROM old.haylane_book WHERE key = " + sql_text(key))
            .value_or("");
    }

  private:
    Result<void> attach() {
        return run_sql(book_, "ATTACH DATABASE " + sql_text(copy_.string()) + " AS old");
    }

    // A table whose description is garbled gets that of a new book's.
    Result<void> describe_again() {
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

    std::vector<std::string> columns(const std::string& table, const std::string& schema) {
        return ask_sql_list(book_, fmt::format("SELECT name FROM pragma_table_info({}, '{}')",
                                               sql_text(table), schema))
            .value_or(std::vector<std::string>{});
    }

    // The highest row number there can be: numbers are never used again.
    std::int64_t last_row(const std::string& table) {
        std::int64_t last = 0;
        for (const std::string& sql :
             {"SELECT seq FROM old.sqlite_sequence WHERE name = " + sql_text(table),
              "SELECT max(rowid) FROM old." + sql_name(table)}) {
            const std::string text = ask_sql(book_, sql).value_or("");
            last = std::max<std::int64_t>(last, std::strtoll(text.c_str(), nullptr, 10));
        }
        return std::min(last, kMostRows);
    }

    Result<SalvagedTable> save(const std::string& table) {
        SalvagedTable out{.table = table};
        const std::vector<std::string> old_columns = columns(table, "old");
        const std::string is_table =
            ask_sql(book_, "SELECT 1 FROM old.sqlite_master WHERE rootpage > 0 AND name = " +
                               sql_text(table))
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
        save_range(out, wanted, 0, last_row(table));
        const Result<std::string> count =
            ask_sql(book_, "SELECT count(*) FROM main." + sql_name(table));
        if (!count) return fail(count.error());
        out.saved = std::strtoll(count->c_str(), nullptr, 10);
        return out;
    }

    bool copy_rows(const std::string& table, const std::vector<std::string>& columns,
                   std::int64_t from, std::int64_t to) {
        const std::string list = fmt::format("{}", fmt::join(columns, ", "));
        return run_sql(book_,
                       fmt::format("INSERT INTO main.{0} ({1}) SELECT {1} FROM old.{0} WHERE "
                                   "rowid BETWEEN {2} AND {3}",
                                   sql_name(table), list, from, to))
            .has_value();
    }

    // Both ends included.
    void save_range(SalvagedTable& out, const std::vector<std::string>& columns, std::int64_t from,
                    std::int64_t to) {
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

    GDALDataset& book_;
    fs::path copy_;
    std::vector<std::string> tables_;
    int failures_ = 0;
};

// The ranch frame of old, else one centred on the pastures that were saved.
std::optional<Frame> saved_frame(GDALDataset& book, Salvage& salvage, SalvageReport& report) {
    if (auto frame = Frame::from_wkt(salvage.note("frame_wkt"))) return std::move(*frame);
    report.frame_made_anew = true;
    std::vector<LonLat> corners;
    for (const char* end : {"Min", "Max"}) {
        const auto corner = [&](const char* axis) {
            return ask_sql(book,
                           fmt::format("SELECT {0}(ST_{0}{1}(geom)) FROM main.pastures", end, axis))
                .value_or("");
        };
        const std::string lon = corner("X");
        const std::string lat = corner("Y");
        if (lon.empty() || lat.empty()) return std::nullopt;
        corners.push_back({std::strtod(lon.c_str(), nullptr), std::strtod(lat.c_str(), nullptr)});
    }
    auto frame = Frame::centred(frame_centre(corners));
    return frame ? std::optional(std::move(*frame)) : std::nullopt;
}

Result<void> keep_notes(GDALDataset& book, Salvage& salvage, const Frame& frame) {
    std::vector<std::pair<std::string, std::string>> notes = {{"frame_wkt", frame.wkt()}};
    for (const char* key : {"ranch", "crs_operations"}) notes.emplace_back(key, salvage.note(key));
    for (const auto& [key, value] : notes) {
        if (value.empty()) continue;
        const Result<void> done =
            run_sql(book, fmt::format("UPDATE main.haylane_book SET value = {} WHERE key = {}",
                                      sql_text(value), sql_text(key)));
        if (!done) return done;
    }
    return {};
}

Error nothing_to_save(const fs::path& damaged) {
    return {"nothing_to_save",
            fmt::format("nothing of {} can be read as a ranch book", damaged.filename().string()),
            damaged.string(),
            "use one of the dated copies of the book, or make it again from its "
            "folder"};
}

// Terrain is read whole or not at all. `noted`: the cell that the damaged book says its terrain
// has.
Result<void> save_terrain(const DamagedCopy& files, const Frame& frame, const std::string& noted,
                          SalvageReport& report) {
    const double cell_m = std::strtod(noted.c_str(), nullptr);
    if (!(cell_m > 0.0)) return {};
    const Result<TerrainData> terrain = report.frame_made_anew
                                            ? Result<TerrainData>(fail({}))
                                            : read_book_terrain(files.copy(), cell_m);
    report.tables.push_back(
        {.table = "terrain", .saved = terrain ? 1 : 0, .lost = terrain ? 0 : 1});
    if (!terrain) return {};
    Result<void> done = write_book_terrain(files.draft(), *terrain, frame);
    if (!done) return done;
    const Result<DatasetPtr> book = open_geopackage(files.draft(), OpenAs::update);
    if (!book) return fail(book.error());
    return run_sql(**book, "INSERT INTO haylane_book (key, value) VALUES ('terrain_own_cell_m', " +
                               sql_text(noted) + ")");
}

Result<SalvageReport> salvage_into(const DamagedCopy& files, const fs::path& damaged) {
    const Result<Frame> somewhere = Frame::centred({0.0, 0.0});
    if (!somewhere) return fail(somewhere.error());
    const Result<void> made =
        write_book(files.draft(), {.ranch = damaged.stem().string(), .frame = *somewhere});
    if (!made) return fail(made.error());
    std::string terrain_cell;
    std::optional<Frame> frame;
    SalvageReport report;
    {
        const Result<DatasetPtr> book = open_geopackage(files.draft(), OpenAs::update);
        if (!book) return fail(book.error());
        Salvage salvage(**book, files.copy());
        if (!salvage.begin()) return fail(nothing_to_save(damaged));
        Result<SalvageReport> saved = salvage.all();
        if (!saved) return fail(saved.error());
        report = std::move(*saved);
        frame = saved_frame(**book, salvage, report);
        if (!frame) return fail(nothing_to_save(damaged));
        terrain_cell = salvage.note("terrain_own_cell_m");
        const Result<void> noted = keep_notes(**book, salvage, *frame);
        if (!noted) return fail(noted.error());
    }
    const Result<void> terrain = save_terrain(files, *frame, terrain_cell, report);
    if (!terrain) return fail(terrain.error());
    return report;
}

}  // namespace

bool SalvageReport::complete() const {
    return !frame_made_anew && left_out.empty() &&
           std::all_of(tables.begin(), tables.end(), [](const SalvagedTable& table) {
               return !table.all_lost && table.lost == 0 && table.without_shape == 0;
           });
}

Result<SalvageReport> salvage_book(const fs::path& damaged, const fs::path& fresh) {
    std::error_code code;
    if (!fs::is_regular_file(damaged, code)) {
        return fail({"file_missing", fmt::format("there is no file {}", shown(damaged.string())),
                     damaged.string(), "check the name and the folder"});
    }
    if (fs::exists(fresh, code)) {
        return fail({"book_exists", fmt::format("{} is there already", fresh.filename().string()),
                     fresh.string(), "choose another name for the new book"});
    }
    const DamagedCopy files(fresh);
    const Result<void> copied = files.take(damaged);
    if (!copied) return fail(copied.error());
    Result<SalvageReport> report = salvage_into(files, damaged);
    if (!report) return report;
    const bool forced = force_to_disk(files.draft());
    if (forced) fs::rename(files.draft(), fresh, code);
    if (!forced || code || !force_to_disk(fs::absolute(fresh).parent_path())) {
        return fail({"book_not_written",
                     fmt::format("{} could not be written", fresh.filename().string()),
                     fresh.string(), "check the disk's free space and that you may write there"});
    }
    return report;
}

}  // namespace haylane
