// Windows go into a plain sparse draft; GDAL's COG driver then lays it out anew with overviews.
#include "gis/raster/ground_rasters.h"

#include "gis/gdal/gdal_session.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <ogr_spatialref.h>

namespace haylane {

namespace {

constexpr double kNoData = -9999.0;

Error not_written(const std::filesystem::path& file, const std::string& reason) {
    return {"file_not_written",
            fmt::format("{} could not be written: {}", file.filename().string(), reason),
            file.string(), "check the disk's free space and that you may write there"};
}

std::filesystem::path beside(std::filesystem::path file, const char* ending) {
    file += ending;
    return file;
}

DatasetPtr create_draft(const std::filesystem::path& file, const Grid& all, const Frame& frame) {
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    if (driver == nullptr) return nullptr;
    static const char* const kOptions[] = {"TILED=YES",      "BLOCKXSIZE=256",   "BLOCKYSIZE=256",
                                           "SPARSE_OK=TRUE", "COMPRESS=DEFLATE", "ZLEVEL=1",
                                           "PREDICTOR=3",    "BIGTIFF=IF_SAFER", nullptr};
    DatasetPtr dataset(driver->Create(file.string().c_str(), all.nx, all.ny, 1, GDT_Float32,
                                      const_cast<char**>(kOptions)));
    if (!dataset) return nullptr;
    OGRSpatialReference reference;
    reference.importFromWkt(frame.wkt().c_str());
    double geo[6] = {all.x0, all.cell_m, 0.0, all.y0 + all.ny * all.cell_m, 0.0, -all.cell_m};
    dataset->SetSpatialRef(&reference);
    dataset->SetGeoTransform(geo);
    dataset->GetRasterBand(1)->SetNoDataValue(kNoData);
    return dataset;
}

}  // namespace

struct GroundRaster::Impl {
    GroundRasterSpec spec;
    Grid extent;
    std::filesystem::path draft;
    DatasetPtr dataset;

    ~Impl() {
        dataset.reset();
        std::error_code ignored;
        std::filesystem::remove(draft, ignored);
        std::filesystem::remove(beside(draft, ".cog"), ignored);
    }

    // One row of the grid: what is there is read, this pasture's cells set, and written back, as
    // boxes of pastures may overlap.
    bool write_row(const Raster<std::uint8_t>& mask, const Raster<double>& values, double factor,
                   int j, std::vector<float>& row) {
        const Grid& grid = mask.grid;
        const int x = static_cast<int>(std::lround((grid.x0 - extent.x0) / extent.cell_m));
        const int south = static_cast<int>(std::lround((grid.y0 - extent.y0) / extent.cell_m));
        const int y = extent.ny - 1 - (south + j);
        GDALRasterBand& band = *dataset->GetRasterBand(1);
        if (band.RasterIO(GF_Read, x, y, grid.nx, 1, row.data(), grid.nx, 1, GDT_Float32, 0, 0,
                          nullptr) != CE_None)
            return false;
        for (int i = 0; i < grid.nx; ++i) {
            if (mask(i, j) != 0)
                row[static_cast<std::size_t>(i)] = static_cast<float>(values(i, j) * factor);
        }
        return band.RasterIO(GF_Write, x, y, grid.nx, 1, row.data(), grid.nx, 1, GDT_Float32, 0, 0,
                             nullptr) == CE_None;
    }

    void describe() {
        GDALRasterBand& band = *dataset->GetRasterBand(1);
        band.SetDescription(spec.description.c_str());
        band.SetUnitType(spec.unit.c_str());
        for (const auto& [key, value] : spec.metadata)
            dataset->SetMetadataItem(key.c_str(), value.c_str());
    }

    bool lay_out() {
        GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("COG");
        if (driver == nullptr) return false;
        static const char* const kOptions[] = {"COMPRESS=DEFLATE",
                                               "PREDICTOR=FLOATING_POINT",
                                               "BLOCKSIZE=256",
                                               "OVERVIEWS=AUTO",
                                               "RESAMPLING=AVERAGE",
                                               "SPARSE_OK=YES",
                                               "BIGTIFF=IF_SAFER",
                                               "NUM_THREADS=1",
                                               nullptr};
        const DatasetPtr cog(driver->CreateCopy(beside(draft, ".cog").string().c_str(),
                                                dataset.get(), FALSE, const_cast<char**>(kOptions),
                                                nullptr, nullptr));
        return cog != nullptr;
    }
};

GroundRaster::GroundRaster(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
GroundRaster::GroundRaster(GroundRaster&&) noexcept = default;
GroundRaster& GroundRaster::operator=(GroundRaster&&) noexcept = default;
GroundRaster::~GroundRaster() = default;

Result<GroundRaster> GroundRaster::begin(GroundRasterSpec spec, const Grid& extent,
                                         const Frame& frame) {
    start_gdal();
    if (extent.size() == 0)
        return fail({"nothing_to_write", "there is no pasture to map", spec.file.string(),
                     "check that the ranch has pastures"});
    const GdalMessages messages;
    auto impl = std::make_unique<Impl>();
    impl->spec = std::move(spec);
    impl->extent = extent;
    impl->draft = beside(impl->spec.file, ".draft");
    impl->dataset = create_draft(impl->draft, extent, frame);
    if (!impl->dataset) return fail(not_written(impl->spec.file, messages.reason()));
    return GroundRaster(std::move(impl));
}

Result<void> GroundRaster::add(const Raster<std::uint8_t>& mask, const Raster<double>& values,
                               double factor) {
    const GdalMessages messages;
    std::vector<float> row(static_cast<std::size_t>(mask.grid.nx));
    for (int j = 0; j < mask.grid.ny; ++j) {
        if (!impl_->write_row(mask, values, factor, j, row))
            return fail(not_written(impl_->spec.file, messages.reason()));
    }
    return {};
}

Result<void> GroundRaster::finish() {
    const GdalMessages messages;
    impl_->describe();
    impl_->dataset->FlushCache(false);
    const bool good = impl_->lay_out() && !messages.failed();
    impl_->dataset.reset();
    std::error_code code;
    if (good) std::filesystem::rename(beside(impl_->draft, ".cog"), impl_->spec.file, code);
    if (!good || code)
        return fail(not_written(impl_->spec.file, code ? code.message() : messages.reason()));
    std::error_code ignored;
    std::filesystem::remove(impl_->draft, ignored);
    return {};
}

Grid ranch_extent(const Ranch& ranch) {
    Box all;
    for (const Pasture& pasture : ranch.pastures) {
        const Box own = box_of(pasture.shape);
        if (own.empty()) continue;
        all.add({own.min_x, own.min_y});
        all.add({own.max_x, own.max_y});
    }
    return grid_over(all, ranch.settings.cell_m);
}

}  // namespace haylane
