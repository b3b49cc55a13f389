// The raster spans all pastures but only their own windows are written; the tiles between stay
// sparse, so pastures far apart cost no memory.
#include "gis/raster/write_ground.h"

#include "core/base/units.h"
#include "gis/gdal/gdal_session.h"

#include <array>
#include <cmath>

#include <fmt/format.h>
#include <ogr_spatialref.h>

namespace haylane {

namespace {

constexpr double kNoData = -9999.0;
constexpr std::array<const char*, 3> kNames = {"N", "P2O5", "K2O"};

Error not_written(const std::filesystem::path& file, const std::string& reason) {
    return {"file_not_written",
            fmt::format("{} could not be written: {}", file.filename().string(), reason),
            file.string(), "check the disk's free space and that you may write there"};
}

const Raster<double>& band_of(const DepositMap& map, std::size_t band) {
    if (band == 0) return map.n_kg;
    return band == 1 ? map.p2o5_kg : map.k2o_kg;
}

Grid union_of(std::span<const GroundLayer> layers) {
    const Grid& first = layers.front().ground->mask.grid;
    double x1 = first.x0;
    double y1 = first.y0;
    Grid all = first;
    for (const GroundLayer& layer : layers) {
        const Grid& grid = layer.ground->mask.grid;
        all.x0 = std::min(all.x0, grid.x0);
        all.y0 = std::min(all.y0, grid.y0);
        x1 = std::max(x1, grid.x0 + grid.nx * grid.cell_m);
        y1 = std::max(y1, grid.y0 + grid.ny * grid.cell_m);
    }
    all.nx = static_cast<int>(std::lround((x1 - all.x0) / all.cell_m));
    all.ny = static_cast<int>(std::lround((y1 - all.y0) / all.cell_m));
    return all;
}

// Reads the window, sets this pasture's cells, writes it back: boxes of pastures may overlap.
bool write_layer(GDALRasterBand& band, const GroundLayer& layer, const Raster<double>& kg,
                 const Grid& all) {
    const Grid& grid = layer.ground->mask.grid;
    const int x = static_cast<int>(std::lround((grid.x0 - all.x0) / all.cell_m));
    const int south = static_cast<int>(std::lround((grid.y0 - all.y0) / all.cell_m));
    const double kg_per_ha = units::kM2PerHectare / grid.cell_area_m2();
    std::vector<float> row(static_cast<std::size_t>(grid.nx));
    for (int j = 0; j < grid.ny; ++j) {
        const int y = all.ny - 1 - (south + j);
        if (band.RasterIO(GF_Read, x, y, grid.nx, 1, row.data(), grid.nx, 1, GDT_Float32, 0, 0,
                          nullptr) != CE_None) {
            return false;
        }
        for (int i = 0; i < grid.nx; ++i) {
            if (layer.ground->mask(i, j) == 0) continue;
            row[static_cast<std::size_t>(i)] =
                static_cast<float>(std::max(0.0, kg(i, j)) * kg_per_ha);
        }
        if (band.RasterIO(GF_Write, x, y, grid.nx, 1, row.data(), grid.nx, 1, GDT_Float32, 0, 0,
                          nullptr) != CE_None) {
            return false;
        }
    }
    return true;
}

DatasetPtr create(const std::filesystem::path& file, const Grid& all, const Frame& frame) {
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    if (driver == nullptr) return nullptr;
    static const char* const kOptions[] = {"TILED=YES",      "COMPRESS=DEFLATE", "PREDICTOR=3",
                                           "SPARSE_OK=TRUE", "BIGTIFF=IF_SAFER", "INTERLEAVE=BAND",
                                           nullptr};
    DatasetPtr dataset(driver->Create(file.string().c_str(), all.nx, all.ny, 3, GDT_Float32,
                                      const_cast<char**>(kOptions)));
    if (!dataset) return nullptr;
    OGRSpatialReference reference;
    reference.importFromWkt(frame.wkt().c_str());
    double geo[6] = {all.x0, all.cell_m, 0.0, all.y0 + all.ny * all.cell_m, 0.0, -all.cell_m};
    dataset->SetSpatialRef(&reference);
    dataset->SetGeoTransform(geo);
    for (int b = 0; b < 3; ++b) {
        GDALRasterBand* band = dataset->GetRasterBand(b + 1);
        band->SetNoDataValue(kNoData);
        band->SetDescription(kNames[static_cast<std::size_t>(b)]);
        band->SetUnitType("kg/ha");
    }
    return dataset;
}

bool add_overviews(GDALDataset& dataset, const Grid& all) {
    std::vector<int> levels;
    for (int level = 2; std::max(all.nx, all.ny) / level >= 128; level *= 2)
        levels.push_back(level);
    if (levels.empty()) return true;
    const GdalOption compress("COMPRESS_OVERVIEW", "DEFLATE");
    return dataset.BuildOverviews("AVERAGE", static_cast<int>(levels.size()), levels.data(), 0,
                                  nullptr, nullptr, nullptr, nullptr) == CE_None;
}

}  // namespace

Result<void> write_ground_tif(const std::filesystem::path& file,
                              std::span<const GroundLayer> layers, const Frame& frame) {
    start_gdal();
    if (layers.empty()) {
        return fail({"nothing_to_write", "there is no pasture to map", file.string(),
                     "check that the ranch has pastures"});
    }
    GdalMessages messages;
    const Grid all = union_of(layers);
    std::filesystem::path draft = file;
    draft += ".tmp";
    std::error_code code;
    DatasetPtr dataset = create(draft, all, frame);
    bool good = dataset != nullptr;
    for (std::size_t b = 0; good && b < kNames.size(); ++b) {
        for (const GroundLayer& layer : layers) {
            good = good && write_layer(*dataset->GetRasterBand(static_cast<int>(b) + 1), layer,
                                       band_of(*layer.map, b), all);
        }
    }
    if (good) {
        dataset->FlushCache(false);
        good = add_overviews(*dataset, all);
    }
    dataset.reset();
    if (good && !messages.failed()) {
        std::filesystem::rename(draft, file, code);
        if (!code) return {};
    }
    std::error_code ignored;
    std::filesystem::remove(draft, ignored);
    return fail(not_written(file, code ? code.message() : messages.reason()));
}

}  // namespace haylane
