// Unknown cells are stored as a value no height can have, because GeoPackage's data_null is a
// number. The grid's cell is taken from the book's own note, since a tile matrix stores rounded
// sizes.
#include "gis/raster/book_terrain.h"

#include "gis/gdal/gdal_session.h"

#include <cmath>
#include <limits>

#include <fmt/format.h>
#include <ogr_spatialref.h>

namespace haylane {

namespace {

constexpr float kNoData = -99999.0F;

Error not_written(const std::filesystem::path& book, const std::string& reason) {
    return {"book_not_written", fmt::format("the terrain could not be written: {}", reason),
            book.string(), "check the disk's free space and that you may write there"};
}

}  // namespace

Result<void> write_book_terrain(const std::filesystem::path& book, const TerrainData& terrain,
                                const Frame& frame) {
    start_gdal();
    GdalMessages messages;
    const Grid& grid = terrain.elevation_m.grid;
    GDALDriver* memory = GetGDALDriverManager()->GetDriverByName("MEM");
    GDALDriver* package = GetGDALDriverManager()->GetDriverByName("GPKG");
    if (memory == nullptr || package == nullptr) return fail(not_written(book, "no such driver"));
    const DatasetPtr source(memory->Create("", grid.nx, grid.ny, 1, GDT_Float32, nullptr));
    if (!source) return fail(not_written(book, messages.reason()));
    OGRSpatialReference reference;
    reference.importFromWkt(frame.wkt().c_str());
    double geo[6] = {grid.x0, grid.cell_m, 0.0, grid.y0 + grid.ny * grid.cell_m, 0.0, -grid.cell_m};
    source->SetSpatialRef(&reference);
    source->SetGeoTransform(geo);
    GDALRasterBand* band = source->GetRasterBand(1);
    band->SetNoDataValue(static_cast<double>(kNoData));
    std::vector<float> row(static_cast<std::size_t>(grid.nx));
    for (int j = 0; j < grid.ny; ++j) {
        for (int i = 0; i < grid.nx; ++i) {
            const float z = terrain.elevation_m(i, j);
            row[static_cast<std::size_t>(i)] = std::isnan(z) ? kNoData : z;
        }
        if (band->RasterIO(GF_Write, 0, grid.ny - 1 - j, grid.nx, 1, row.data(), grid.nx, 1,
                           GDT_Float32, 0, 0, nullptr) != CE_None) {
            return fail(not_written(book, messages.reason()));
        }
    }
    static const char* const kOptions[] = {"APPEND_SUBDATASET=YES", "RASTER_TABLE=terrain",
                                           "TILE_FORMAT=TIFF", "ADD_GPKG_OGR_CONTENTS=NO", nullptr};
    DatasetPtr copy(package->CreateCopy(book.string().c_str(), source.get(), FALSE,
                                        const_cast<char**>(kOptions), nullptr, nullptr));
    if (!copy) return fail(not_written(book, messages.reason()));
    copy.reset();
    if (messages.failed()) return fail(not_written(book, messages.reason()));
    return {};
}

Result<TerrainData> read_book_terrain(const std::filesystem::path& book, double own_cell_m) {
    Result<DatasetPtr> opened = open_book_raster(book, "terrain");
    if (!opened) return fail(opened.error());
    GDALDataset& dataset = **opened;
    GdalMessages messages;
    double geo[6] = {};
    dataset.GetGeoTransform(geo);
    TerrainData terrain;
    terrain.own_cell_m = own_cell_m;
    const int nx = dataset.GetRasterXSize();
    const int ny = dataset.GetRasterYSize();
    const double cell = own_cell_m > 0.0 ? own_cell_m : geo[1];
    const double y0 = std::round((geo[3] - ny * cell) / cell) * cell;
    terrain.elevation_m = Raster<float>(Grid{std::round(geo[0] / cell) * cell, y0, cell, nx, ny});
    for (int j = 0; j < ny; ++j) {
        float* row = &terrain.elevation_m.values[terrain.elevation_m.grid.at(0, j)];
        if (dataset.GetRasterBand(1)->RasterIO(GF_Read, 0, ny - 1 - j, nx, 1, row, nx, 1,
                                               GDT_Float32, 0, 0, nullptr) != CE_None) {
            return fail({"book_damaged",
                         "the terrain of the book cannot be read: " + messages.reason(),
                         book.string(), "make the book again, or use a saved copy"});
        }
    }
    for (float& z : terrain.elevation_m.values) {
        if (z == kNoData) z = std::numeric_limits<float>::quiet_NaN();
    }
    return terrain;
}

}  // namespace haylane
