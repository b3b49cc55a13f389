// Only the window under the box is read, so a file of any size costs what the ranch needs of it.
#include "gis/raster/terrain_source.h"

#include "gis/gdal/gdal_session.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kLowest = -500.0;    // any unit: the lowest dry land is near -430 m
constexpr double kHighest = 30000.0;  // the highest mountain is 29,032 ft

struct Window {
    int x = 0;
    int y = 0;
    int nx = 0;
    int ny = 0;
};

Error terrain_error(const char* code, const std::string& file, const std::string& what,
                    const char* remedy) {
    return {code, fmt::format("{}: {}", file, what), file, remedy};
}

Result<ToLonLat> door_of(GDALDataset& dataset, const std::string& file) {
    const OGRSpatialReference* reference = dataset.GetSpatialRef();
    const char* const remedy = "save the raster again with its coordinate system";
    if (reference == nullptr) {
        return fail(
            terrain_error("terrain_no_crs", file, "it does not say its coordinate system", remedy));
    }
    char* wkt = nullptr;
    static const char* const kOptions[] = {"FORMAT=WKT2_2018", nullptr};
    const bool written = reference->exportToWkt(&wkt, kOptions) == OGRERR_NONE;
    const std::string text = written ? wkt : "";
    CPLFree(wkt);
    Result<ToLonLat> door = ToLonLat::from_crs(text);
    if (!door) return fail(terrain_error("terrain_no_crs", file, door.error().what, remedy));
    return door;
}

// Pixel box of the frame box, by its edges and inside sampled 21 x 21; nullopt if nothing maps.
std::optional<Window> window_of(const Box& box, const Frame& frame, const ToLonLat& door,
                                const double* inverse, int nx, int ny) {
    Box cells;
    constexpr int kSteps = 20;
    for (int i = 0; i <= kSteps; ++i) {
        for (int j = 0; j <= kSteps; ++j) {
            const Point p{box.min_x + (box.max_x - box.min_x) * i / kSteps,
                          box.min_y + (box.max_y - box.min_y) * j / kSteps};
            const auto at = door.inverse(frame.to_lonlat(p));
            if (!at) continue;
            cells.add({inverse[0] + inverse[1] * at->x + inverse[2] * at->y,
                       inverse[3] + inverse[4] * at->x + inverse[5] * at->y});
        }
    }
    if (cells.empty()) return std::nullopt;
    constexpr double kMargin = 2.0;
    const double x0 = std::max(0.0, std::floor(cells.min_x - kMargin));
    const double y0 = std::max(0.0, std::floor(cells.min_y - kMargin));
    const double x1 = std::min<double>(nx, std::ceil(cells.max_x + kMargin));
    const double y1 = std::min<double>(ny, std::ceil(cells.max_y + kMargin));
    if (x1 <= x0 || y1 <= y0) return std::nullopt;
    return Window{static_cast<int>(x0), static_cast<int>(y0), static_cast<int>(x1 - x0),
                  static_cast<int>(y1 - y0)};
}

void clean(TerrainSource& source, std::optional<double> nodata) {
    for (float& z : source.height) {
        const auto height = static_cast<double>(z);
        const bool marked = nodata && (height == *nodata || z == static_cast<float>(*nodata));
        if (std::isnan(height) || marked) {
            ++source.unknown;
        } else if (height < kLowest || height > kHighest) {
            ++source.impossible;
        } else {
            continue;
        }
        z = std::numeric_limits<float>::quiet_NaN();
    }
}

Result<void> read_window(GDALRasterBand& band, const Window& window, const std::string& file,
                         TerrainSource& source) {
    GdalMessages messages;
    source.height.resize(static_cast<std::size_t>(source.nx) * static_cast<std::size_t>(source.ny));
    const CPLErr code =
        band.RasterIO(GF_Read, window.x, window.y, window.nx, window.ny, source.height.data(),
                      source.nx, source.ny, GDT_Float32, 0, 0, nullptr);
    if (code != CE_None || messages.failed()) {
        return fail(terrain_error("terrain_damaged", file, "damaged: " + messages.reason(),
                                  "copy or download the terrain file again"));
    }
    int known = 0;
    const double nodata = band.GetNoDataValue(&known);
    clean(source, known != 0 ? std::optional<double>(nodata) : std::nullopt);
    return {};
}

}  // namespace

Result<TerrainSource> load_terrain(const std::filesystem::path& file, const Frame& frame,
                                   const Box& box, int most_cells_a_side) {
    const std::string name = file.filename().string();
    Result<DatasetPtr> opened = open_raster(file);
    if (!opened) return fail(opened.error());
    GDALDataset& dataset = **opened;
    double geo[6] = {};
    double inverse[6] = {};
    if (dataset.GetGeoTransform(geo) != CE_None || GDALInvGeoTransform(geo, inverse) == 0) {
        return fail(terrain_error("terrain_no_georeference", name,
                                  "it has no position on the earth",
                                  "save it again as a GeoTIFF with its position"));
    }
    Result<ToLonLat> door = door_of(dataset, name);
    if (!door) return fail(door.error());
    GDALRasterBand* band = dataset.GetRasterCount() > 0 ? dataset.GetRasterBand(1) : nullptr;
    if (band == nullptr || dataset.GetRasterXSize() < 2 || dataset.GetRasterYSize() < 2) {
        return fail(terrain_error("terrain_no_cells", name, "it holds no cells",
                                  "copy or download the terrain file again"));
    }
    const auto window =
        window_of(box, frame, *door, inverse, dataset.GetRasterXSize(), dataset.GetRasterYSize());
    if (!window) {
        const LonLat centre = frame.centre();
        const auto at = door->lonlat(geo[0], geo[3]);
        return fail(terrain_error(
            "terrain_no_overlap", name,
            fmt::format(
                "it does not lie under the pastures: its corner is near {:.2f}, {:.2f}, the "
                "pastures are near {:.2f}, {:.2f}",
                at ? at->lon_deg : 0.0, at ? at->lat_deg : 0.0, centre.lon_deg, centre.lat_deg),
            "give terrain of the ranch itself, with the right zone"));
    }
    TerrainSource source{*door};
    source.coarser_by =
        (std::max(window->nx, window->ny) + most_cells_a_side - 1) / most_cells_a_side;
    source.nx = std::max(1, window->nx / source.coarser_by);
    source.ny = std::max(1, window->ny / source.coarser_by);
    const double kx = static_cast<double>(source.nx) / window->nx;
    const double ky = static_cast<double>(source.ny) / window->ny;
    source.to_cells = {(inverse[0] - window->x) * kx, inverse[1] * kx, inverse[2] * kx,
                       (inverse[3] - window->y) * ky, inverse[4] * ky, inverse[5] * ky};
    source.cell_x = std::hypot(geo[1], geo[4]) / kx;
    source.cell_y = std::hypot(geo[2], geo[5]) / ky;
    source.unit = band->GetUnitType() == nullptr ? "" : band->GetUnitType();
    const Result<void> read = read_window(*band, *window, name, source);
    if (!read) return fail(read.error());
    return source;
}

}  // namespace haylane
