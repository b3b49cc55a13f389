#pragma once
// The only door to GDAL: opens a plain local file with a short list of allowed drivers, and gathers
// what GDAL says while it works. Never a network address, a connection string or a driver that
// reaches other files (VRT and its kind). Failures come back as Error with the file's name.
// Threads: each call and each GdalMessages belongs to the thread that made it.

#include "core/base/result.h"

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include <gdal_priv.h>

namespace haylane {

// What GDAL reported on this thread while this object lived; objects nest.
class GdalMessages {
  public:
    GdalMessages();
    ~GdalMessages();
    GdalMessages(const GdalMessages&) = delete;
    GdalMessages& operator=(const GdalMessages&) = delete;
    GdalMessages(GdalMessages&&) = delete;
    GdalMessages& operator=(GdalMessages&&) = delete;

    // Failures and fatal errors.
    [[nodiscard]] bool failed() const { return !failures_.empty(); }
    [[nodiscard]] const std::vector<std::string>& failures() const { return failures_; }
    [[nodiscard]] const std::vector<std::string>& warnings() const { return warnings_; }
    // The first failure, else the first warning, else "no reason given"; control characters out.
    [[nodiscard]] std::string reason() const;
    void clear();
    // For the handler only.
    void add(bool failure, const char* message);

  private:
    std::vector<std::string> failures_;
    std::vector<std::string> warnings_;
};

// A GDAL setting for this thread while this object lives.
class GdalOption {
  public:
    GdalOption(const char* key, const char* value);
    ~GdalOption();
    GdalOption(const GdalOption&) = delete;
    GdalOption& operator=(const GdalOption&) = delete;
    GdalOption(GdalOption&&) = delete;
    GdalOption& operator=(GdalOption&&) = delete;

  private:
    const char* key_;
};

struct CloseDataset {
    std::shared_ptr<void> held;  // let go once the dataset is closed and its owner gone
    void operator()(GDALDataset* dataset) const;
};
using DatasetPtr = std::unique_ptr<GDALDataset, CloseDataset>;

// Registers drivers once and switches the network off; called by everything below.
void start_gdal();

enum class OpenAs { read, update };

// Vector files: GeoJSON, GeoPackage, Shapefile, KML (by LIBKML); read only.
[[nodiscard]] Result<DatasetPtr> open_vector(const std::filesystem::path& file);
// GeoJSON by what stands in the file, whatever its ending says.
[[nodiscard]] Result<DatasetPtr> open_geojson(const std::filesystem::path& file);
// Elevation rasters: GeoTIFF, ASCII grid, BIL, USGS DEM, SRTM tiles.
[[nodiscard]] Result<DatasetPtr> open_raster(const std::filesystem::path& file);
// Pictures: GeoTIFF, JPEG 2000, JPEG, PNG (the last two seldom say where they lie).
[[nodiscard]] Result<DatasetPtr> open_picture(const std::filesystem::path& file);
// A GeoPackage and nothing else, whatever its name.
[[nodiscard]] Result<DatasetPtr> open_geopackage(const std::filesystem::path& file, OpenAs mode);
// A raster table inside a GeoPackage.
[[nodiscard]] Result<DatasetPtr> open_book_raster(const std::filesystem::path& book,
                                                  const std::string& table);

// The text with control characters and overrides of writing direction made visible, cut at 200
// bytes: what may be shown of a file's own words.
[[nodiscard]] std::string shown(const std::string& text);

}  // namespace haylane
