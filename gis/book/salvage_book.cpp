// Works on a copy of the damaged file beside the new book, and gives the new one its name last.
#include "gis/book/salvage_book.h"

#include "gis/book/book_sql.h"
#include "gis/book/damaged_copy.h"
#include "gis/book/force_to_disk.h"
#include "gis/book/salvage_tables.h"
#include "gis/book/write_book.h"
#include "gis/raster/book_terrain.h"

#include <algorithm>
#include <cstdlib>
#include <optional>

#include <fmt/format.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

// The ranch frame of old, else one centred on the pastures that were saved.
std::optional<Frame> saved_frame(GDALDataset& book, SalvageTables& salvage, SalvageReport& report) {
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

Result<void> keep_notes(GDALDataset& book, SalvageTables& salvage, const Frame& frame) {
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
        SalvageTables salvage(**book, files.copy());
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
