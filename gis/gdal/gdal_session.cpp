// GDAL reports by callback; a handler pushed for this thread writes into the innermost
// GdalMessages. Drivers are allow-listed at each opening, because GDAL looks at content, not at
// names, and some of its drivers read other files, servers or databases named inside the file.
#include "gis/gdal/gdal_session.h"

#include <mutex>

#include <cpl_conv.h>
#include <cpl_error.h>
#include <fmt/format.h>
#include <ogr_srs_api.h>

namespace haylane {

namespace {

void CPL_STDCALL on_message(CPLErr level, CPLErrorNum /*number*/, const char* message) {
    auto* messages = static_cast<GdalMessages*>(CPLGetErrorHandlerUserData());
    if (messages == nullptr || level == CE_Debug || level == CE_None) return;
    messages->add(level != CE_Warning, message);
}

Error cannot_open(const std::filesystem::path& file, const std::string& reason) {
    return {"file_unreadable",
            fmt::format("{} cannot be read: {}", file.filename().string(), reason), file.string(),
            "export or copy the file again from where it was made"};
}

Result<DatasetPtr> open(const std::filesystem::path& file, unsigned flags,
                        const char* const* drivers) {
    start_gdal();
    std::error_code code;
    if (!std::filesystem::is_regular_file(file, code)) {
        return fail({"file_missing", fmt::format("there is no file {}", shown(file.string())),
                     file.string(), "check the name and the folder"});
    }
    const std::string full = std::filesystem::absolute(file).string();
    GdalMessages messages;
    DatasetPtr dataset(GDALDataset::Open(full.c_str(), flags, drivers));
    if (!dataset) return fail(cannot_open(file, messages.reason()));
    return dataset;
}

}  // namespace

GdalMessages::GdalMessages() { CPLPushErrorHandlerEx(on_message, this); }
GdalMessages::~GdalMessages() { CPLPopErrorHandler(); }

void GdalMessages::add(bool failure, const char* message) {
    auto& list = failure ? failures_ : warnings_;
    constexpr std::size_t kMost = 100;
    if (list.size() < kMost) list.emplace_back(message == nullptr ? "" : message);
}

void GdalMessages::clear() {
    failures_.clear();
    warnings_.clear();
}

std::string GdalMessages::reason() const {
    if (!failures_.empty()) return shown(failures_.front());
    if (!warnings_.empty()) return shown(warnings_.front());
    return "its content is not what its name says, or it is damaged";
}

GdalOption::GdalOption(const char* key, const char* value) : key_(key) {
    CPLSetThreadLocalConfigOption(key, value);
}
GdalOption::~GdalOption() { CPLSetThreadLocalConfigOption(key_, nullptr); }

void CloseDataset::operator()(GDALDataset* dataset) const {
    if (dataset != nullptr) GDALClose(GDALDataset::ToHandle(dataset));
}

void start_gdal() {
    static std::once_flag once;
    std::call_once(once, [] {
        CPLSetConfigOption("GDAL_PAM_ENABLED", "NO");
        CPLSetConfigOption("OGR_GEOJSON_MAX_OBJ_SIZE", "200");
        CPLSetConfigOption("PROJ_NETWORK", "OFF");
        OSRSetPROJEnableNetwork(0);
        GDALAllRegister();
    });
}

Result<DatasetPtr> open_vector(const std::filesystem::path& file) {
    static const char* const kDrivers[] = {"GeoJSON", "GPKG", "ESRI Shapefile", "LIBKML", nullptr};
    return open(file, GDAL_OF_VECTOR | GDAL_OF_READONLY, kDrivers);
}

Result<DatasetPtr> open_geopackage(const std::filesystem::path& file, OpenAs mode) {
    static const char* const kDrivers[] = {"GPKG", nullptr};
    const unsigned access = mode == OpenAs::update ? GDAL_OF_UPDATE : GDAL_OF_READONLY;
    return open(file, GDAL_OF_VECTOR | access, kDrivers);
}

Result<DatasetPtr> open_geojson(const std::filesystem::path& file) {
    static const char* const kDrivers[] = {"GeoJSON", nullptr};
    return open(file, GDAL_OF_VECTOR | GDAL_OF_READONLY, kDrivers);
}

Result<DatasetPtr> open_raster(const std::filesystem::path& file) {
    static const char* const kDrivers[] = {"GTiff",   "AAIGrid", "EHdr",
                                           "USGSDEM", "SRTMHGT", nullptr};
    return open(file, GDAL_OF_RASTER | GDAL_OF_READONLY, kDrivers);
}

Result<DatasetPtr> open_picture(const std::filesystem::path& file) {
    static const char* const kDrivers[] = {"GTiff", "JPEG", "PNG", "JP2OpenJPEG", nullptr};
    return open(file, GDAL_OF_RASTER | GDAL_OF_READONLY, kDrivers);
}

Result<DatasetPtr> open_book_raster(const std::filesystem::path& book, const std::string& table) {
    start_gdal();
    static const char* const kDrivers[] = {"GPKG", nullptr};
    const std::string name =
        fmt::format("GPKG:{}:{}", std::filesystem::absolute(book).string(), table);
    GdalMessages messages;
    DatasetPtr dataset(
        GDALDataset::Open(name.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, kDrivers));
    if (!dataset) return fail(cannot_open(book, messages.reason()));
    return dataset;
}

std::string shown(const std::string& text) {
    constexpr std::size_t kMost = 200;
    std::string out;
    for (std::size_t i = 0; i < text.size() && out.size() < kMost; ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const bool control = byte < 0x20 || byte == 0x7f;
        // U+202A..202E, 2066..2069 (direction), 200B..200F (invisible): E2 80 8B.. and E2 81 A6..
        const bool marks =
            byte == 0xE2 && i + 2 < text.size() &&
            ((text[i + 1] == '\x80' && (text[i + 2] >= '\x8B' && text[i + 2] <= '\x8F')) ||
             (text[i + 1] == '\x80' && (text[i + 2] >= '\xAA' && text[i + 2] <= '\xAE')) ||
             (text[i + 1] == '\x81' && (text[i + 2] >= '\xA6' && text[i + 2] <= '\xA9')));
        if (control || marks) out += '?';
        if (marks) i += 2;
        if (!control && !marks) out += text[i];
    }
    while (!out.empty() && out.size() >= kMost &&
           (static_cast<unsigned char>(out.back()) & 0xC0U) == 0x80U) {
        out.pop_back();
    }
    return out;
}

}  // namespace haylane
