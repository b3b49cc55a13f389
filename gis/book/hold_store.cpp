// Plain SQL, so that making the table, too, is part of one transaction: GDAL's own way of making a
// layer is not. A table of an earlier form gains columns and keeps what it has.
#include "gis/book/hold_store.h"

#include "gis/book/book_sql.h"
#include "gis/book/raw_rows.h"
#include "gis/crs/to_lonlat.h"
#include "gis/vector/shape_from_ogr.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

constexpr const char* kTable = "locks";
constexpr std::array<const char*, 10> kColumns{
    "geom GEOMETRY", "uuid TEXT",    "kind TEXT",    "name TEXT", "herd TEXT",
    "date TEXT",     "date_to TEXT", "pasture TEXT", "rig TEXT",  "bales TEXT"};

std::string bales_text(const std::vector<LotBales>& bales) {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const LotBales& draw : bales) list.push_back({{"lot", draw.lot}, {"bales", draw.bales}});
    return list.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

std::vector<LotBales> bales_of(const std::string& text) {
    std::vector<LotBales> bales;
    const auto list = nlohmann::json::parse(text, nullptr, false);
    if (!list.is_array()) return bales;
    for (const auto& draw : list) {
        const bool sound = draw.is_object() && draw.contains("lot") && draw["lot"].is_string() &&
                           draw.contains("bales") && draw["bales"].is_number();
        if (sound) bales.push_back({draw["lot"].get<std::string>(), draw["bales"].get<double>()});
    }
    return bales;
}

std::string shape_sql(const StoredHold& hold, const Frame& frame) {
    return hold.area.empty() ? sql_lines(hold.lines, frame) : sql_areas(hold.area, frame);
}

Result<void> add(GDALDataset& book, const Frame& frame, const StoredHold& hold) {
    if (hold.kind != HoldKind::forbid) {
        const Result<void> replaced = run_sql(
            book, fmt::format("DELETE FROM {} WHERE kind IN ('day', 'line') AND herd = {} AND "
                              "date = {}",
                              kTable, sql_text(hold.herd), sql_text(format_day(hold.date))));
        if (!replaced) return replaced;
    }
    return run_sql(
        book,
        fmt::format("INSERT INTO {} (uuid, kind, name, herd, date, date_to, pasture, rig, bales, "
                    "geom) VALUES ({}, {}, {}, {}, {}, {}, {}, {}, {}, {})",
                    kTable, sql_text(new_uuid()), sql_text(std::string(to_string(hold.kind))),
                    sql_text(hold.name), sql_text(hold.herd), sql_text(format_day(hold.date)),
                    sql_text(format_day(hold.date_to)), sql_text(hold.pasture), sql_text(hold.rig),
                    sql_text(bales_text(hold.bales)), shape_sql(hold, frame)));
}

std::string text_of(const OGRFeature& feature, const char* column) {
    const int at = feature.GetFieldIndex(column);
    return at < 0 || feature.IsFieldSetAndNotNull(at) == 0 ? "" : feature.GetFieldAsString(at);
}

StoredHold stored_hold(const OGRFeature& feature, const ToLonLat& door, const Frame& frame) {
    StoredHold hold{.number = static_cast<int>(feature.GetFID())};
    const std::string kind = text_of(feature, "kind");
    for (const HoldKind known : {HoldKind::line, HoldKind::forbid})
        if (kind == to_string(known)) hold.kind = known;
    hold.name = text_of(feature, "name");
    hold.herd = text_of(feature, "herd");
    hold.date = parse_day(text_of(feature, "date")).value_or(sys_days{});
    hold.date_to = parse_day(text_of(feature, "date_to")).value_or(hold.date);
    hold.pasture = text_of(feature, "pasture");
    hold.rig = text_of(feature, "rig");
    hold.bales = bales_of(text_of(feature, "bales"));
    const OGRGeometry* geometry = feature.GetGeometryRef();
    if (geometry == nullptr) return hold;
    const Result<ShapeRead> read = shape_from_ogr(*geometry, door);
    if (!read) return hold;
    const auto shape = shape_in_frame(read->shape, frame);
    if (const auto* lines = std::get_if<MultiPolyline>(&shape)) hold.lines = *lines;
    if (const auto* area = std::get_if<MultiPolygon>(&shape)) hold.area = *area;
    return hold;
}

// Runs `work` in one transaction of a book whose table is as it should be.
Result<void> change_holds(const std::filesystem::path& book,
                          const std::function<Result<void>(GDALDataset&, const Frame&)>& work) {
    Result<DatasetPtr> opened = open_book_for_update(book);
    if (!opened) return fail(opened.error());
    const Result<Frame> frame = book_frame(**opened);
    if (!frame) return fail(frame.error());
    return in_transaction(**opened, [&]() -> Result<void> {
        Result<void> done = make_holds_table(**opened);
        if (done) done = work(**opened, *frame);
        return done;
    });
}

Result<bool> has_row(GDALDataset& book, const std::string& sql) {
    const Result<std::string> found = ask_sql(book, "SELECT 1 FROM " + sql);
    if (!found) return fail(found.error());
    return !found->empty();
}

Result<void> register_table(GDALDataset& book) {
    const auto contents = has_row(book, "gpkg_contents WHERE table_name = 'locks'");
    if (!contents) return fail(contents.error());
    Result<void> done =
        *contents
            ? run_sql(book,
                      "UPDATE gpkg_contents SET data_type = 'features', srs_id = 4326 WHERE "
                      "table_name = 'locks'")
            : run_sql(book,
                      "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, "
                      "last_change, srs_id) VALUES ('locks', 'features', 'locks', '', "
                      "strftime('%Y-%m-%dT%H:%M:%fZ','now'), 4326)");
    if (!done) return done;
    const auto shapes = has_row(book, "gpkg_geometry_columns WHERE table_name = 'locks'");
    if (!shapes) return fail(shapes.error());
    if (*shapes) return {};
    return run_sql(book,
                   "INSERT INTO gpkg_geometry_columns (table_name, column_name, "
                   "geometry_type_name, srs_id, z, m) VALUES ('locks', 'geom', 'GEOMETRY', 4326, "
                   "0, 0)");
}

}  // namespace

std::string_view to_string(HoldKind kind) {
    switch (kind) {
        case HoldKind::day:
            return "day";
        case HoldKind::line:
            return "line";
        case HoldKind::forbid:
            return "forbid";
    }
    return "day";
}

Result<void> make_holds_table(GDALDataset& book) {
    const auto registered = has_row(book, "gpkg_geometry_columns WHERE table_name = 'locks'");
    if (!registered) return fail(registered.error());
    if (*registered) return {};
    Result<void> done = run_sql(
        book, "CREATE TABLE IF NOT EXISTS locks (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL)");
    if (done) done = add_columns(book, kTable, {kColumns.begin(), kColumns.end()});
    if (!done) return done;
    return register_table(book);
}

Result<void> save_holds(const std::filesystem::path& book, const std::vector<StoredHold>& holds) {
    return change_holds(book, [&](GDALDataset& dataset, const Frame& frame) -> Result<void> {
        Result<void> done;
        for (const StoredHold& hold : holds)
            if (done) done = add(dataset, frame, hold);
        return done;
    });
}

Result<std::vector<StoredHold>> stored_holds(const std::filesystem::path& book) {
    Result<DatasetPtr> opened = open_book_to_read(book);
    if (!opened) return fail(opened.error());
    std::vector<StoredHold> holds;
    OGRLayer* layer = (*opened)->GetLayerByName(kTable);
    if (layer == nullptr || layer->GetLayerDefn()->GetFieldIndex("kind") < 0) return holds;
    const Result<Frame> frame = book_frame(**opened);
    if (!frame) return fail(frame.error());
    const Result<ToLonLat> door = ToLonLat::from_crs("EPSG:4326");
    if (!door) return fail(door.error());
    while (const OGRFeatureUniquePtr feature{layer->GetNextFeature()})
        holds.push_back(stored_hold(*feature, *door, *frame));
    return holds;
}

Result<void> release_holds(const std::filesystem::path& book, const std::vector<int>& numbers) {
    return change_holds(book, [&](GDALDataset& dataset, const Frame&) -> Result<void> {
        for (const int number : numbers) {
            const auto there = has_row(dataset, fmt::format("locks WHERE fid = {}", number));
            if (!there) return fail(there.error());
            if (!*there)
                return fail({"unknown_hold", fmt::format("nothing is held under number {}", number),
                             book.string(), "the list of what is held has the numbers"});
            const Result<void> done =
                run_sql(dataset, fmt::format("DELETE FROM locks WHERE fid = {}", number));
            if (!done) return done;
        }
        return {};
    });
}

}  // namespace haylane
