// GDAL makes the tables; rows go in within one transaction. Terrain is added last, to the closed
// file.
#include "gis/book/write_book.h"

#include "gis/book/book_sql.h"
#include "gis/book/force_to_disk.h"
#include "gis/book/hold_store.h"
#include "gis/book/keep_copy.h"
#include "gis/raster/book_terrain.h"

#include <map>

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

Error not_written(const fs::path& book, const std::string& reason) {
    return {"book_not_written",
            fmt::format("{} could not be written: {}", book.filename().string(), reason),
            book.string(), "check the disk's free space and that you may write there"};
}

OGRwkbGeometryType ogr_type(RoleShape shape) {
    switch (shape) {
        case RoleShape::none:
            return wkbNone;
        case RoleShape::points:
            return wkbPoint;
        case RoleShape::lines:
            return wkbMultiLineString;
        case RoleShape::polygons:
            return wkbMultiPolygon;
        default:
            return wkbUnknown;
    }
}

OGRLinearRing ogr_ring(const LonLatLine& line) {
    OGRLinearRing ring;
    for (const LonLat place : line) ring.addPoint(place.lon_deg, place.lat_deg);
    ring.closeRings();
    return ring;
}

OGRGeometryUniquePtr ogr_shape(const LonLatShape& shape) {
    if (!shape.polygons.empty()) {
        auto all = std::make_unique<OGRMultiPolygon>();
        for (const LonLatPolygon& polygon : shape.polygons) {
            OGRPolygon one;
            for (const LonLatLine& line : polygon.rings) {
                OGRLinearRing ring = ogr_ring(line);
                one.addRing(&ring);
            }
            all->addGeometry(&one);
        }
        return OGRGeometryUniquePtr(all.release());
    }
    if (!shape.lines.empty()) {
        auto all = std::make_unique<OGRMultiLineString>();
        for (const LonLatLine& line : shape.lines) {
            OGRLineString one;
            for (const LonLat place : line) one.addPoint(place.lon_deg, place.lat_deg);
            all->addGeometry(&one);
        }
        return OGRGeometryUniquePtr(all.release());
    }
    if (shape.points.empty()) return nullptr;
    if (shape.points.size() == 1) {
        return OGRGeometryUniquePtr(
            new OGRPoint(shape.points.front().lon_deg, shape.points.front().lat_deg));
    }
    auto all = std::make_unique<OGRMultiPoint>();
    for (const LonLat place : shape.points) {
        OGRPoint one(place.lon_deg, place.lat_deg);
        all->addGeometry(&one);
    }
    return OGRGeometryUniquePtr(all.release());
}

using Columns = std::vector<std::pair<std::string, OGRFieldType>>;

struct Writer {
    fs::path path;
    GDALDataset& book;
    OGRSpatialReference wgs84;

    OGRLayer* table(const std::string& name, OGRwkbGeometryType type, const Columns& columns) {
        static const char* const kOptions[] = {"GEOMETRY_NAME=geom", "FID=fid", nullptr};
        OGRLayer* layer = book.CreateLayer(name.c_str(), type == wkbNone ? nullptr : &wgs84, type,
                                           const_cast<char**>(kOptions));
        if (layer == nullptr) return nullptr;
        for (const auto& [column, kind] : columns) {
            OGRFieldDefn field(column.c_str(), kind);
            if (layer->CreateField(&field) != OGRERR_NONE) return nullptr;
        }
        return layer;
    }

    static Columns columns_for(const RoleInfo& role) {
        Columns columns = {{"uuid", OFTString}};
        for (const ColumnSpec* spec : columns_of(role.name)) {
            columns.emplace_back(std::string(spec->book),
                                 is_numeric(spec->dimension) ? OFTReal : OFTString);
        }
        columns.emplace_back("as_entered", OFTString);
        columns.emplace_back("read_from", OFTString);
        return columns;
    }

    static bool add_row(OGRLayer& layer, const BookRow& row) {
        OGRFeature feature(layer.GetLayerDefn());
        feature.SetField("uuid", new_uuid().c_str());
        feature.SetField("as_entered", row.as_entered.c_str());
        feature.SetField("read_from", row.read_from.c_str());
        for (const auto& [column, value] : row.fields) {
            const auto* number = std::get_if<double>(&value);
            const auto* text = std::get_if<std::string>(&value);
            if (number != nullptr) feature.SetField(column.c_str(), *number);
            if (text != nullptr) feature.SetField(column.c_str(), text->c_str());
        }
        OGRGeometryUniquePtr shape = ogr_shape(row.shape);
        if (shape) feature.SetGeometryDirectly(shape.release());
        return layer.CreateFeature(&feature) == OGRERR_NONE;
    }

    bool roles(const BookDraft& draft) {
        for (const RoleInfo& role : role_infos()) {
            OGRLayer* layer =
                table(std::string(role.name), ogr_type(role.shape), columns_for(role));
            if (layer == nullptr) return false;
            for (const BookTable& rows : draft.tables) {
                if (rows.role != &role) continue;
                for (const BookRow& row : rows.rows) {
                    if (!add_row(*layer, row)) return false;
                }
            }
        }
        return true;
    }

    // Tables that fill during the winter.
    bool records() {
        const Columns plan_line = {{"uuid", OFTString},    {"plan_uuid", OFTString},
                                   {"line_id", OFTString}, {"date", OFTString},
                                   {"herd", OFTString},    {"pasture", OFTString},
                                   {"rig", OFTString}};
        return table("feeding_bales", wkbNone,
                     {{"uuid", OFTString},
                      {"feeding_uuid", OFTString},
                      {"lot", OFTString},
                      {"bales", OFTReal},
                      {"taken", OFTReal}}) != nullptr &&
               table("feeding_lines", wkbMultiLineString,
                     {{"uuid", OFTString}, {"feeding_uuid", OFTString}, {"line_id", OFTString}}) !=
                   nullptr &&
               table("tracks", wkbMultiLineString,
                     {{"uuid", OFTString},
                      {"name", OFTString},
                      {"file", OFTString},
                      {"started", OFTString}}) != nullptr &&
               make_holds_table(book).has_value() &&
               table("plans", wkbNone,
                     {{"uuid", OFTString},
                      {"from_date", OFTString},
                      {"made_at", OFTString},
                      {"json", OFTString}}) != nullptr &&
               table("plan_lines", wkbMultiLineString, plan_line) != nullptr;
    }

    bool notes(const BookDraft& draft) {
        OGRLayer* problems = table("read_problems", wkbNone,
                                   {{"code", OFTString},
                                    {"severity", OFTInteger},
                                    {"place", OFTString},
                                    {"text", OFTString},
                                    {"remedy", OFTString}});
        OGRLayer* layer =
            table("haylane_book", wkbNone, {{"key", OFTString}, {"value", OFTString}});
        if (problems == nullptr || layer == nullptr) return false;
        for (const Problem& problem : draft.problems) {
            OGRFeature feature(problems->GetLayerDefn());
            feature.SetField("code", problem.code.c_str());
            feature.SetField("severity", static_cast<int>(problem.severity));
            feature.SetField("place", problem.where.c_str());
            feature.SetField("text", problem.text.c_str());
            feature.SetField("remedy", problem.remedy.c_str());
            if (problems->CreateFeature(&feature) != OGRERR_NONE) return false;
        }
        std::map<std::string, std::string> entries = {
            {"schema_version", std::to_string(kBookSchema)},
            {"ranch", draft.ranch},
            {"frame_wkt", draft.frame.wkt()},
            {"crs_operations", nlohmann::json(draft.crs_operations).dump()}};
        if (draft.terrain) {
            entries["terrain_own_cell_m"] = fmt::format("{}", draft.terrain->own_cell_m);
        }
        for (const auto& [key, value] : entries) {
            OGRFeature feature(layer->GetLayerDefn());
            feature.SetField("key", key.c_str());
            feature.SetField("value", value.c_str());
            if (layer->CreateFeature(&feature) != OGRERR_NONE) return false;
        }
        return true;
    }
};

Result<void> fill(const fs::path& draft_path, const BookDraft& draft) {
    GdalMessages messages;
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    static const char* const kOptions[] = {"ADD_GPKG_OGR_CONTENTS=NO", "VERSION=1.3", nullptr};
    DatasetPtr book(driver == nullptr ? nullptr
                                      : driver->Create(draft_path.string().c_str(), 0, 0, 0,
                                                       GDT_Unknown, const_cast<char**>(kOptions)));
    if (!book) return fail(not_written(draft_path, messages.reason()));
    Writer writer{draft_path, *book, OGRSpatialReference()};
    writer.wgs84.importFromEPSG(4326);
    writer.wgs84.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    const bool begun = book->StartTransaction() == OGRERR_NONE;
    const bool good = begun && writer.roles(draft) && writer.records() && writer.notes(draft) &&
                      book->CommitTransaction() == OGRERR_NONE;
    book.reset();
    if (!good || messages.failed()) return fail(not_written(draft_path, messages.reason()));
    if (!draft.terrain) return {};
    return write_book_terrain(draft_path, *draft.terrain, draft.frame);
}

// The old file is kept. Its journal, if its last writer was cut off, must be gone before the new
// file has its name: SQLite would undo the old book's change in the new one.
Result<void> make_room(const fs::path& book) {
    [[maybe_unused]] const auto finished = open_book_to_read(book);  // if it is a book
    Result<void> kept = keep_replaced(book);
    if (!kept) return kept;
    std::error_code code;
    for (const char* tail : {"-journal", "-wal", "-shm"}) fs::remove(book.string() + tail, code);
    return {};
}

}  // namespace

Result<void> write_book(const fs::path& book, const BookDraft& draft) {
    start_gdal();
    fs::path draft_path = book;
    draft_path.replace_filename("." + book.stem().string() + "-" + new_uuid().substr(0, 8) +
                                ".tmp.gpkg");
    Result<void> done = fill(draft_path, draft);
    std::error_code code;
    if (done && !force_to_disk(draft_path))
        done = fail(not_written(book, "it cannot be forced to disk"));
    if (done && fs::exists(book, code)) done = make_room(book);
    if (done) {
        fs::rename(draft_path, book, code);
        if (code) done = fail(not_written(book, code.message()));
    }
    if (!done) {
        for (const char* tail : {"", "-journal", "-wal", "-shm"}) {
            fs::remove(draft_path.string() + tail, code);
        }
        if (done.error().code == "copy_not_kept") return done;
        return fail(not_written(book, done.error().what));
    }
    const fs::path parent = fs::absolute(book).parent_path();
    if (!force_to_disk(parent))
        return fail(not_written(book, "its folder cannot be forced to disk"));
    return {};
}

}  // namespace haylane
