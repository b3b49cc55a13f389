// GDAL reads; this file decides what its silence means. Field values are taken as text with dates
// in ISO form, so that one later step (gis/book) gives them meaning whatever the format.
#include "gis/vector/read_layers.h"

#include "gis/crs/to_lonlat.h"
#include "gis/gdal/gdal_session.h"
#include "gis/vector/file_scan.h"
#include "gis/vector/file_text.h"
#include "gis/vector/gpx_layer.h"
#include "gis/vector/shape_from_ogr.h"

#include <chrono>
#include <cmath>
#include <optional>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

enum class Format { geojson, gpkg, shapefile, kml };

std::optional<Format> format_of(const std::filesystem::path& file) {
    const std::string ending = lower_ascii(file.extension().string());
    if (ending == ".geojson" || ending == ".json") return Format::geojson;
    if (ending == ".gpkg") return Format::gpkg;
    if (ending == ".shp") return Format::shapefile;
    if (ending == ".kml") return Format::kml;
    return std::nullopt;
}

struct Source {
    std::filesystem::path path;
    std::string file;
    Format format = Format::geojson;
    VectorOptions options;
};

std::string cell_text(const OGRFeature& feature, int i) {
    if (feature.IsFieldSetAndNotNull(i) == 0) return {};
    switch (feature.GetFieldDefnRef(i)->GetType()) {
        case OFTDate:
        case OFTDateTime: {
            int year = 0;
            int month = 0;
            int day = 0;
            int skip = 0;
            feature.GetFieldAsDateTime(i, &year, &month, &day, &skip, &skip, &skip, &skip);
            return fmt::format("{:04}-{:02}-{:02}", year, month, day);
        }
        case OFTReal:
            return fmt::format("{}", feature.GetFieldAsDouble(i));
        case OFTStringList: {
            std::string all;
            const char* const* list = feature.GetFieldAsStringList(i);
            for (int k = 0; list != nullptr && list[k] != nullptr; ++k) {
                all += (k == 0 ? "" : ";") + std::string(list[k]);
            }
            return all;
        }
        default:
            return feature.GetFieldAsString(i);
    }
}

// The layer's own coordinate system as WKT; for KML it is WGS 84 by its standard.
std::optional<std::string> layer_crs(OGRLayer& layer) {
    const OGRSpatialReference* reference = layer.GetSpatialRef();
    if (reference == nullptr) return std::nullopt;
    char* wkt = nullptr;
    static const char* const kOptions[] = {"FORMAT=WKT2_2018", nullptr};
    if (reference->exportToWkt(&wkt, kOptions) != OGRERR_NONE) {
        CPLFree(wkt);
        return std::nullopt;
    }
    std::string text = wkt;
    CPLFree(wkt);
    return text;
}

bool looks_like_degrees(OGRLayer& layer) {
    OGREnvelope box;
    if (layer.GetExtent(&box, TRUE) != OGRERR_NONE) return true;
    return box.MinX >= -180.0 && box.MaxX <= 180.0 && box.MinY >= -90.0 && box.MaxY <= 90.0;
}

// The door for a layer, or why there is none. `layer_out` gets the warning of an assumed system.
Result<ToLonLat> door_of(OGRLayer& layer, const Source& source, SourceLayer& layer_out) {
    const std::optional<std::string> crs = layer_crs(layer);
    std::error_code code;
    auto prj = source.path;
    prj.replace_extension(".prj");
    if (!crs && source.format == Format::shapefile && std::filesystem::exists(prj, code)) {
        return fail(
            {"crs_unreadable",
             fmt::format("{} cannot be understood as a coordinate system", prj.filename().string()),
             source.file, "copy the .prj again, or save the map as GeoJSON"});
    }
    const bool undefined = crs && (crs->find("Undefined") != std::string::npos ||
                                   crs->starts_with("ENGCRS") || crs->starts_with("LOCAL_CS"));
    if (!crs || undefined) {
        if (!looks_like_degrees(layer) || undefined) {
            return fail({"crs_missing",
                         fmt::format("{} does not say its coordinate system", source.file),
                         source.file,
                         source.format == Format::shapefile
                             ? "copy the .prj file that belongs to it, or save the map as GeoJSON"
                             : "save the map again with its coordinate system, or as GeoJSON"});
        }
        layer_out.problems.push_back(
            {"crs_assumed", Severity::warning, source.file,
             "the file does not say its coordinate system; its numbers look like degrees and were "
             "taken as WGS 84",
             "check that the map lies in the right place"});
        return ToLonLat::from_crs("EPSG:4326");
    }
    Result<ToLonLat> door = ToLonLat::from_crs(*crs);
    if (!door) {
        Error error = door.error();
        error.where = source.file;
        return fail(error);
    }
    if (!door->geographic() && layer.GetFeatureCount(TRUE) > 0 && looks_like_degrees(layer)) {
        return fail({"crs_mismatch",
                     fmt::format("{} says its coordinates are metres, but they look like degrees",
                                 source.file),
                     source.file, "the coordinate system given with the file does not fit it"});
    }
    return door;
}

// Adds the feature's shape to the row; false when it lies off the earth.
bool read_shape(const OGRFeature& feature, const ToLonLat& door, SourceRow& row, SourceLayer& out) {
    const OGRGeometry* geometry = feature.GetGeometryRef();
    const auto add = [&](const char* code, const std::string& text, const char* remedy) {
        out.problems.push_back({code, Severity::warning, row.where, text, remedy});
    };
    if (geometry == nullptr || geometry->IsEmpty()) {
        add("no_geometry", "the feature has no shape", "draw it, or remove it from the file");
        return true;
    }
    Result<ShapeRead> read = shape_from_ogr(*geometry, door);
    if (!read) {
        const Error& error = read.error();
        out.problems.push_back({error.code, Severity::error, row.where, error.what, error.remedy});
        return error.code != "coordinates_out_of_range";
    }
    if (read->parts_left_out > 0) {
        add("shape_part_left_out",
            fmt::format("{} parts with too few points, or of a kind not known here, were left out",
                        read->parts_left_out),
            "check the feature on the map");
    }
    if (read->ring_left_open) {
        add("ring_closed", "the ring did not end where it began; it was closed",
            "check the feature's last corner");
    }
    row.shape = std::move(read->shape);
    return true;
}

void note_messages(const GdalMessages& messages, const Source& source, SourceLayer& out) {
    for (const auto* list : {&messages.failures(), &messages.warnings()}) {
        for (const std::string& message : *list) {
            out.problems.push_back({"reader_note", Severity::warning, source.file, shown(message),
                                    "check the file in the program that made it"});
            if (out.problems.size() > 200) return;
        }
    }
}

void read_columns(OGRLayer& layer, SourceLayer& out) {
    const OGRFeatureDefn* definition = layer.GetLayerDefn();
    for (int i = 0; i < definition->GetFieldCount(); ++i) {
        out.columns.emplace_back(definition->GetFieldDefn(i)->GetNameRef());
    }
}

std::string feature_name(const Source& source, const SourceLayer& out, std::size_t number) {
    if (source.format == Format::gpkg) {
        return fmt::format("{}, layer {}, feature {}", source.file, out.name, number);
    }
    return fmt::format("{}, feature {}", source.file, number);
}

Result<void> read_rows(OGRLayer& layer, const std::optional<ToLonLat>& door, const Source& source,
                       SourceLayer& out) {
    using Clock = std::chrono::steady_clock;
    const auto started = Clock::now();
    std::size_t off_earth = 0;
    layer.ResetReading();
    while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
        if (out.rows.size() >= source.options.most_features ||
            Clock::now() - started > std::chrono::seconds(60)) {
            return fail({"too_many_features",
                         fmt::format("{} holds more than {} features or takes too long to read",
                                     source.file, source.options.most_features),
                         source.file, "keep only the ranch's own features in it"});
        }
        SourceRow row;
        row.where = feature_name(source, out, out.rows.size() + 1);
        for (int i = 0; i < feature->GetFieldCount(); ++i) {
            row.cells.push_back(cell_text(*feature, i));
        }
        if (door && !read_shape(*feature, *door, row, out)) ++off_earth;
        out.rows.push_back(std::move(row));
    }
    if (off_earth > 0 && off_earth == out.rows.size()) {
        for (const Problem& problem : out.problems) {
            if (problem.code != "coordinates_out_of_range") continue;
            return fail(
                {problem.code, problem.where + ": " + problem.text, problem.where, problem.remedy});
        }
    }
    return {};
}

Result<SourceLayer> read_layer(OGRLayer& layer, const Source& source) {
    SourceLayer out;
    out.file = source.file;
    out.name = source.format == Format::gpkg ? layer.GetName() : source.path.stem().string();
    GdalMessages messages;
    std::optional<ToLonLat> door;
    out.spatial = layer.GetGeomType() != wkbNone;
    if (out.spatial) {
        Result<ToLonLat> made = door_of(layer, source, out);
        if (!made) return fail(made.error());
        door = *made;
    }
    read_columns(layer, out);
    const Result<void> rows = read_rows(layer, door, source, out);
    if (!rows) return fail(rows.error());
    if (door && !out.rows.empty()) out.crs_operations.push_back(door->operation());
    if (messages.failed() && out.rows.empty()) {
        return fail({"file_unreadable",
                     fmt::format("{} is damaged: {}", source.file, messages.reason()), source.file,
                     "export or copy the file again from where it was made"});
    }
    note_messages(messages, source, out);
    return out;
}

// KML folders are merged into one layer, because they are drawn as one map.
void append(SourceLayer& all, SourceLayer&& more) {
    if (all.columns.empty()) all.columns = more.columns;
    for (SourceRow& row : more.rows) {
        std::vector<std::string> cells(all.columns.size());
        for (std::size_t i = 0; i < more.columns.size(); ++i) {
            for (std::size_t k = 0; k < all.columns.size(); ++k) {
                if (all.columns[k] == more.columns[i]) cells[k] = row.cells[i];
            }
        }
        row.cells = std::move(cells);
        all.rows.push_back(std::move(row));
    }
    all.problems.insert(all.problems.end(), more.problems.begin(), more.problems.end());
    all.crs_operations.insert(all.crs_operations.end(), more.crs_operations.begin(),
                              more.crs_operations.end());
    all.spatial = all.spatial || more.spatial;
}

// A view in a foreign GeoPackage can run any query, for ever.
bool is_view(GDALDataset& dataset, const std::string& layer) {
    std::string quoted;
    for (const char c : layer) quoted += c == '\'' ? std::string("''") : std::string(1, c);
    const std::string sql =
        fmt::format("SELECT 1 FROM sqlite_master WHERE name = '{}' AND type = 'view'", quoted);
    OGRLayer* answer = dataset.ExecuteSQL(sql.c_str(), nullptr, nullptr);
    if (answer == nullptr) return false;
    const bool found = OGRFeatureUniquePtr{answer->GetNextFeature()} != nullptr;
    dataset.ReleaseResultSet(answer);
    return found;
}

Result<DatasetPtr> open(const Source& source) {
    GdalMessages messages;
    Result<DatasetPtr> dataset =
        source.format == Format::geojson ? open_geojson(source.path) : open_vector(source.path);
    if (!dataset && source.format == Format::geojson) {
        Error error = dataset.error();
        error.code = "broken_json";
        error.where = source.file;
        return fail(error);
    }
    return dataset;
}

Result<void> check_shapefile(const Source& source) {
    std::string missing;
    for (const char* ending : {".shx", ".dbf"}) {
        auto lower = source.path;
        auto upper = source.path;
        lower.replace_extension(ending);
        upper.replace_extension(ending == std::string(".shx") ? ".SHX" : ".DBF");
        std::error_code code;
        if (std::filesystem::exists(lower, code) || std::filesystem::exists(upper, code)) continue;
        missing += (missing.empty() ? "" : ", ") + lower.filename().string();
    }
    if (missing.empty()) return {};
    return fail({"shapefile_incomplete",
                 fmt::format("{} is only a part of a Shapefile; missing: {}", source.file, missing),
                 source.file, "copy the .shp, .shx, .dbf and .prj files together"});
}

}  // namespace

Result<std::vector<SourceLayer>> read_layers(const std::filesystem::path& file,
                                             const VectorOptions& options) {
    if (!options.geojson && lower_ascii(file.extension().string()) == ".gpx") {
        Result<SourceLayer> layer =
            read_gpx_layer(file, {options.waypoints, options.most_features});
        if (!layer) return fail(layer.error());
        return std::vector<SourceLayer>{std::move(*layer)};
    }
    const std::optional<Format> format = options.geojson ? Format::geojson : format_of(file);
    Source source{file, file.filename().string(), format.value_or(Format::geojson), options};
    if (!format) {
        return fail({"format_unknown", fmt::format("{} is of a kind that is not read", source.file),
                     source.file, "use GeoJSON, GeoPackage, Shapefile, KML or GPX"});
    }
    Problems notes;
    if (*format != Format::gpkg && *format != Format::shapefile) {
        Result<Problems> scan =
            scan_text_file(file, *format == Format::kml ? TextForm::kml : TextForm::json);
        if (!scan) return fail(scan.error());
        notes = std::move(*scan);
    }
    if (*format == Format::shapefile) {
        const Result<void> whole = check_shapefile(source);
        if (!whole) return fail(whole.error());
    }
    const GdalOption distrust("OGR_SQLITE_PRAGMA", "trusted_schema=0");
    Result<DatasetPtr> dataset = open(source);
    if (!dataset) return fail(dataset.error());
    std::vector<SourceLayer> layers;
    for (OGRLayer* layer : (*dataset)->GetLayers()) {
        const std::string name = layer->GetName();
        if (*format == Format::gpkg && is_view(**dataset, name)) {
            notes.push_back({"layer_is_a_view", Severity::warning, source.file + ", layer " + name,
                             "the layer is a query, not a table, and was not run",
                             "save its rows as a table"});
            continue;
        }
        Result<SourceLayer> read = read_layer(*layer, source);
        if (!read) return fail(read.error());
        if (*format == Format::kml && !layers.empty()) {
            append(layers.front(), std::move(*read));
        } else {
            layers.push_back(std::move(*read));
        }
    }
    if (layers.empty()) {
        return fail({"no_layers", fmt::format("{} holds no layer that can be read", source.file),
                     source.file, "export or copy the file again from where it was made"});
    }
    auto& first = layers.front().problems;
    first.insert(first.begin(), notes.begin(), notes.end());
    return layers;
}

}  // namespace haylane
