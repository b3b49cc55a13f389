#include "gis/book/read_book.h"

#include "core/base/units.h"
#include "gis/book/open_book.h"
#include "gis/book/raw_rows.h"
#include "gis/book/write_book.h"
#include "gis/gdal/gdal_session.h"
#include "gis/raster/book_terrain.h"
#include "gis/vector/shape_from_ogr.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <optional>

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

using Notes = std::map<std::string, std::string>;

Notes read_notes(OGRLayer& layer) {
    Notes notes;
    while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
        notes[feature->GetFieldAsString("key")] = feature->GetFieldAsString("value");
    }
    return notes;
}

Problems read_problems(OGRLayer* layer) {
    Problems problems;
    if (layer == nullptr) return problems;
    while (const OGRFeatureUniquePtr feature{layer->GetNextFeature()}) {
        const int severity = std::clamp(feature->GetFieldAsInteger("severity"), 0, 2);
        problems.push_back({feature->GetFieldAsString("code"), static_cast<Severity>(severity),
                            feature->GetFieldAsString("place"), feature->GetFieldAsString("text"),
                            feature->GetFieldAsString("remedy")});
    }
    return problems;
}

RawRow raw_row(const OGRFeature& feature, const RoleInfo& role, std::size_t number) {
    RawRow row;
    for (int i = 0; i < feature.GetFieldCount(); ++i) {
        if (feature.IsFieldSetAndNotNull(i) == 0) continue;
        const std::string column = feature.GetFieldDefnRef(i)->GetNameRef();
        if (column == "uuid") row.uuid = feature.GetFieldAsString(i);
        if (column == "uuid" || column == "as_entered" || column == "read_from") continue;
        if (feature.GetFieldDefnRef(i)->GetType() == OFTString) {
            row.fields[column] = std::string(feature.GetFieldAsString(i));
        } else {
            row.fields[column] = feature.GetFieldAsDouble(i);
        }
    }
    const int from = feature.GetFieldIndex("read_from");
    row.where = from >= 0 && feature.IsFieldSetAndNotNull(from) != 0
                    ? feature.GetFieldAsString(from)
                    : fmt::format("the book's {}, row {}", role.name, number);
    return row;
}

void read_role(OGRLayer& layer, const RoleInfo& role, const ToLonLat& door, BookContents& out) {
    std::vector<RawRow> rows;
    while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
        RawRow row = raw_row(*feature, role, rows.size() + 1);
        const OGRGeometry* geometry = feature->GetGeometryRef();
        if (geometry != nullptr && !geometry->IsEmpty()) {
            const Result<ShapeRead> read = shape_from_ogr(*geometry, door);
            if (read) {
                row.shape = shape_in_frame(read->shape, out.frame);
            } else {
                out.problems.push_back({read.error().code, Severity::error, row.where,
                                        read.error().what, read.error().remedy});
            }
        }
        rows.push_back(std::move(row));
    }
    if (!rows.empty()) out.raw.roles.emplace(std::string(role.name), std::move(rows));
}

double number_of(const Notes& notes, const char* key) {
    const auto found = notes.find(key);
    double value = 0.0;
    if (found == notes.end()) return value;
    std::from_chars(found->second.data(), found->second.data() + found->second.size(), value);
    return value;
}

std::vector<std::string> operations_of(const Notes& notes) {
    const auto found = notes.find("crs_operations");
    if (found == notes.end()) return {};
    const auto list = nlohmann::json::parse(found->second, nullptr, false);
    std::vector<std::string> operations;
    if (!list.is_array()) return operations;
    for (const auto& item : list) {
        if (item.is_string()) operations.push_back(item.get<std::string>());
    }
    return operations;
}

Error not_a_book(const std::filesystem::path& book) {
    return {"not_a_book", fmt::format("{} is no ranch book", book.filename().string()),
            book.string(), "make a book with: haylane new BOOK.gpkg --from FOLDER"};
}

Result<void> add_terrain(const std::filesystem::path& book, const Notes& notes, BookContents& out) {
    const double own_cell = number_of(notes, "terrain_own_cell_m");
    if (!(own_cell > 0.0)) return {};
    Result<TerrainData> terrain = read_book_terrain(book, own_cell);
    if (!terrain) return fail(terrain.error());
    out.raw.terrain = std::move(*terrain);
    return {};
}

}  // namespace

Result<BookContents> read_book(const std::filesystem::path& book) {
    Result<DatasetPtr> opened = open_book_to_read(book);
    if (!opened) return fail(opened.error());
    GdalMessages messages;
    OGRLayer* note_layer = (*opened)->GetLayerByName("haylane_book");
    if (note_layer == nullptr) return fail(not_a_book(book));
    const Notes notes = read_notes(*note_layer);
    const auto wkt = notes.find("frame_wkt");
    if (wkt == notes.end()) return fail(not_a_book(book));
    Result<Frame> frame = Frame::from_wkt(wkt->second);
    if (!frame) return fail(frame.error());
    const Result<ToLonLat> door = ToLonLat::from_crs("EPSG:4326");
    if (!door) return fail(door.error());
    RawRanch raw;
    const auto ranch = notes.find("ranch");
    raw.name = ranch == notes.end() ? book.stem().string() : ranch->second;
    raw.latitude_rad = units::rad_from_deg(frame->centre().lat_deg);
    BookContents out{std::move(raw), *frame,
                     read_problems((*opened)->GetLayerByName("read_problems")),
                     operations_of(notes)};
    if (number_of(notes, "schema_version") > kBookSchema) {
        out.problems.push_back({"newer_book", Severity::warning, book.filename().string(),
                                "the book was made by a newer version; it is only read",
                                "use the newer version to change it"});
    }
    for (const RoleInfo& role : role_infos()) {
        OGRLayer* layer = (*opened)->GetLayerByName(std::string(role.name).c_str());
        if (layer != nullptr) read_role(*layer, role, *door, out);
    }
    if (messages.failed()) {
        return fail(damaged_book(book, messages.reason()));
    }
    const Result<void> terrain = add_terrain(book, notes, out);
    if (!terrain) return fail(terrain.error());
    return out;
}

}  // namespace haylane
