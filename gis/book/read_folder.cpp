// Files are taken in the order of their names, so that messages and rows never depend on the disk.
#include "gis/book/read_folder.h"

#include "gis/book/raw_rows.h"
#include "gis/gdal/gdal_session.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/file_text.h"
#include "gis/vector/read_layers.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

std::string ending_of(const fs::path& file) { return lower_ascii(file.extension().string()); }

bool ends_in(const fs::path& file, std::initializer_list<const char*> endings) {
    const std::string ending = ending_of(file);
    return std::any_of(endings.begin(), endings.end(),
                       [&ending](const char* one) { return ending == one; });
}

bool is_vector(const fs::path& file) {
    return ends_in(file, {".geojson", ".json", ".gpkg", ".shp", ".kml", ".gpx"});
}
bool is_raster(const fs::path& file) {
    return ends_in(file, {".tif", ".tiff", ".asc", ".bil", ".dem", ".hgt"});
}
// Files that belong to another file, or to people.
bool is_companion(const fs::path& file) {
    return file.filename().string().starts_with('.') ||
           ends_in(file, {".shx", ".dbf", ".prj", ".cpg", ".qix", ".sbn", ".sbx", ".xml", ".tfw",
                          ".qml", ".qmd", ".hdr", ".md", ".txt", ".pdf", ".ovr", ".gpkg-journal"});
}

struct Folder {
    FolderContents out;
    std::map<std::string, SourceLayer> layers;  // by role
    std::map<std::string, std::string> origin;  // role -> file

    std::optional<Error> claim(const std::string& role, const std::string& file) {
        const auto [place, fresh] = origin.emplace(role, file);
        if (fresh) return std::nullopt;
        return Error{
            "two_sources_of_one_role",
            fmt::format("the role '{}' stands in two files: {} and {}", role, place->second, file),
            file, "keep one of them in the folder"};
    }

    std::optional<Error> add(SourceLayer layer) {
        const bool known = find_role(layer.name) != nullptr || lower_ascii(layer.name) == "columns";
        if (!known) {
            out.problems.push_back(
                {"unknown_role", Severity::info, layer.file,
                 fmt::format("'{}' is no name of a ranch layer; not read", shown(layer.name)),
                 "name the file or layer as the manual lists them"});
            return std::nullopt;
        }
        const std::string role = lower_ascii(layer.name);
        if (auto error = claim(role, layer.file)) return error;
        layers.emplace(role, std::move(layer));
        return std::nullopt;
    }
};

// GPX keeps places and ways apart: a role of points takes waypoints, a role of any shape both.
Result<std::vector<SourceLayer>> read_for(const fs::path& file, RoleShape shape) {
    VectorOptions options;
    options.waypoints = shape == RoleShape::points || shape == RoleShape::point_or_polygon;
    auto layers = read_layers(file, options);
    if (!layers || ending_of(file) != ".gpx" || shape != RoleShape::any) return layers;
    options.waypoints = true;
    auto more = read_layers(file, options);
    if (!more) return more;
    SourceLayer& first = layers->front();
    for (SourceRow& row : more->front().rows) {
        std::vector<std::string> cells(first.columns.size());
        for (std::size_t i = 0; i < more->front().columns.size(); ++i) {
            const auto found =
                std::find(first.columns.begin(), first.columns.end(), more->front().columns[i]);
            if (found == first.columns.end()) continue;
            cells[static_cast<std::size_t>(found - first.columns.begin())] = row.cells[i];
        }
        row.cells = std::move(cells);
        first.rows.push_back(std::move(row));
    }
    return layers;
}

std::optional<Error> add_vector(Folder& folder, const fs::path& file) {
    const RoleInfo* role = find_role(file.stem().string());
    if (role == nullptr && ending_of(file) != ".gpkg") {
        folder.out.problems.push_back({"unknown_role", Severity::info, file.filename().string(),
                                       "its name is no name of a ranch layer; not read",
                                       "name the file as the manual lists them"});
        return std::nullopt;
    }
    auto layers = read_for(file, role == nullptr ? RoleShape::any : role->shape);
    if (!layers) return layers.error();
    // A GeoPackage named for a role with one layer of another name is that role.
    const bool named_by_file =
        role != nullptr && layers->size() == 1 && find_role(layers->front().name) == nullptr;
    for (SourceLayer& layer : *layers) {
        if (named_by_file) layer.name = role->name;
        if (auto error = folder.add(std::move(layer))) return error;
    }
    return std::nullopt;
}

std::optional<Error> add_file(Folder& folder, const fs::path& file) {
    const std::string stem = lower_ascii(file.stem().string());
    const std::string name = file.filename().string();
    if (stem == "terrain" && is_raster(file)) {
        folder.out.terrain = file;
        return folder.claim("terrain", name);
    }
    if (is_vector(file)) return add_vector(folder, file);
    if (ends_in(file, {".csv", ".tsv"})) {
        if (find_role(stem) == nullptr && stem != "columns") {
            folder.out.problems.push_back({"unknown_role", Severity::info, name,
                                           "its name is no name of a ranch table; not read",
                                           "name the file as the manual lists them"});
            return std::nullopt;
        }
        Result<SourceLayer> layer = read_csv_layer(file);
        if (!layer) return layer.error();
        return folder.add(std::move(*layer));
    }
    if (!is_companion(file)) {
        folder.out.problems.push_back(
            {"file_not_read", Severity::info, name, "files of this kind are not read",
             "use GeoJSON, GeoPackage, Shapefile, KML, GPX, CSV or GeoTIFF"});
    }
    return std::nullopt;
}

std::vector<ColumnAlias> aliases_of(Folder& folder) {
    const auto found = folder.layers.find("columns");
    if (found == folder.layers.end()) return {};
    const SourceLayer& layer = found->second;
    const auto column = [&layer](const char* name) {
        for (std::size_t i = 0; i < layer.columns.size(); ++i) {
            if (plain_heading(layer.columns[i]) == name) return i;
        }
        return layer.columns.size();
    };
    const std::size_t places[] = {column("role"), column("column"), column("in_file"),
                                  column("unit")};
    std::vector<ColumnAlias> aliases;
    for (const SourceRow& row : layer.rows) {
        const auto cell = [&](std::size_t k) {
            return places[k] < row.cells.size() ? trimmed(row.cells[places[k]]) : std::string();
        };
        aliases.push_back({cell(0), cell(1), cell(2), cell(3)});
        if (find_role(cell(0)) == nullptr || cell(1).empty() || cell(2).empty()) {
            folder.out.problems.push_back({"alias_not_used", Severity::warning, row.where,
                                           "the line does not name a role, a column and a heading",
                                           "write role, column and in_file"});
        }
    }
    return aliases;
}

}  // namespace

Result<FolderContents> read_folder(const fs::path& folder_path) {
    start_gdal();
    std::error_code code;
    std::vector<fs::path> files;
    for (fs::directory_iterator it(folder_path, code), end; !code && it != end;
         it.increment(code)) {
        if (it->is_regular_file(code)) files.push_back(it->path());
    }
    if (code) {
        return fail({"folder_missing",
                     fmt::format("the folder {} cannot be read: {}", shown(folder_path.string()),
                                 code.message()),
                     folder_path.string(), "check its name"});
    }
    std::sort(files.begin(), files.end());
    Folder folder;
    for (const fs::path& file : files) {
        if (auto error = add_file(folder, file)) return fail(*error);
    }
    if (!folder.layers.contains("pastures")) {
        return fail(
            {"missing_pastures", "the folder holds no pastures", folder_path.string(),
             "add pastures as a GeoJSON, GeoPackage, Shapefile, KML or GPX file named pastures"});
    }
    const std::vector<ColumnAlias> aliases = aliases_of(folder);
    for (const RoleInfo& role : role_infos()) {
        const auto found = folder.layers.find(std::string(role.name));
        if (found == folder.layers.end()) continue;
        Result<BookRows> rows = book_rows(role, found->second, aliases);
        if (!rows) return fail(rows.error());
        // A feeding without a shape is one over the whole pasture, and nothing odd.
        if (role.name == "feedings")
            std::erase_if(rows->problems, [](const Problem& p) { return p.code == "no_geometry"; });
        auto& all = folder.out.problems;
        all.insert(all.end(), rows->problems.begin(), rows->problems.end());
        for (const std::string& operation : found->second.crs_operations) {
            auto& list = folder.out.crs_operations;
            const std::string text = fmt::format("{}: {}", found->second.file, operation);
            if (std::find(list.begin(), list.end(), text) == list.end()) list.push_back(text);
        }
        folder.out.tables.push_back({&role, std::move(rows->rows)});
    }
    return std::move(folder.out);
}

Result<std::vector<SourceLayer>> read_role_file(const fs::path& file, const RoleInfo& role) {
    if (is_vector(file)) return read_for(file, role.shape);
    if (!ends_in(file, {".csv", ".tsv"}))
        return fail({"file_not_read",
                     fmt::format("{}: files of this kind are not read", file.filename().string()),
                     file.string(), "Use GeoJSON, GeoPackage, Shapefile, KML, GPX or CSV."});
    auto layer = read_csv_layer(file);
    if (!layer) return fail(layer.error());
    return std::vector<SourceLayer>{std::move(*layer)};
}

}  // namespace haylane
