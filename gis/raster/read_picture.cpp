// GDAL's warper does the work, into memory: only the part under the box, made coarser while it is
// read where the file is finer than the picture that is wanted.
#include "gis/raster/read_picture.h"

#include "gis/gdal/gdal_session.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <string>

#include <fmt/format.h>
#include <gdal_alg.h>
#include <gdal_utils.h>

namespace haylane {

namespace {

Error picture_error(const char* code, const std::string& file, const std::string& what,
                    const char* remedy) {
    return {code, fmt::format("{}: {}", file, what), file, remedy};
}

// The part of the box that the picture covers and its pixel in metres; nullopt = none of it.
struct Place {
    Box at;
    double pixel_m = 0.0;
};
std::optional<Place> place_of(GDALDataset& source, const Frame& frame, const Box& box) {
    char** options = CSLSetNameValue(nullptr, "DST_SRS", frame.wkt().c_str());
    void* way = GDALCreateGenImgProjTransformer2(&source, nullptr, options);
    CSLDestroy(options);
    if (way == nullptr) return std::nullopt;
    std::array<double, 6> place{};
    int nx = 0;
    int ny = 0;
    const CPLErr found =
        GDALSuggestedWarpOutput(&source, GDALGenImgProjTransform, way, place.data(), &nx, &ny);
    GDALDestroyGenImgProjTransformer(way);
    if (found != CE_None || !(place[1] > 0.0)) return std::nullopt;
    const Box at{std::max(box.min_x, place[0]), std::max(box.min_y, place[3] + ny * place[5]),
                 std::min(box.max_x, place[0] + nx * place[1]), std::min(box.max_y, place[3])};
    if (!(at.min_x < at.max_x && at.min_y < at.max_y)) return std::nullopt;
    return Place{at, place[1]};
}

int tell(double done_ratio, const char* /*message*/, void* progress) {
    const auto& told = *static_cast<const Progress*>(progress);
    told("Reading the picture", done_ratio);
    return told.stopped() ? 0 : 1;
}

std::vector<std::string> warp_words(const Frame& frame, const Box& at, int nx, int ny,
                                    bool palette) {
    std::vector<std::string> words{"-of", "MEM", "-t_srs", frame.wkt(), "-te"};
    for (const double edge : {at.min_x, at.min_y, at.max_x, at.max_y})
        words.push_back(fmt::format("{:.3f}", edge));
    words.insert(words.end(), {"-ts", std::to_string(nx), std::to_string(ny), "-dstalpha", "-wm",
                               "128", "-r", palette ? "near" : "bilinear"});
    return words;
}

// Grey, grey and alpha, a palette, or red, green, blue and perhaps alpha; the warper adds an alpha
// band where there was none.
Result<std::vector<std::uint32_t>> colors_of(GDALDataset& picture, const GDALColorTable* palette) {
    const int nx = picture.GetRasterXSize();
    const int ny = picture.GetRasterYSize();
    const int bands = picture.GetRasterCount();
    const auto pixels = static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny);
    const auto read = [&](int band, std::vector<std::uint8_t>& into) {
        into.resize(pixels);
        return picture.GetRasterBand(band)->RasterIO(GF_Read, 0, 0, nx, ny, into.data(), nx, ny,
                                                     GDT_Byte, 0, 0) == CE_None;
    };
    std::array<std::vector<std::uint8_t>, 4> value;
    const bool colored = bands >= 4;
    bool good = read(1, value[0]) && read(bands, value[3]);
    if (colored) good = good && read(2, value[1]) && read(3, value[2]);
    if (!good) return fail({"picture_damaged", "its pixels cannot be read", {}, {}});
    std::vector<std::uint32_t> argb(pixels);
    for (std::size_t i = 0; i < pixels; ++i) {
        std::uint32_t red = value[0][i];
        std::uint32_t green = colored ? value[1][i] : red;
        std::uint32_t blue = colored ? value[2][i] : red;
        if (palette != nullptr) {
            const GDALColorEntry* entry = palette->GetColorEntry(static_cast<int>(red));
            if (entry == nullptr) continue;
            red = static_cast<std::uint8_t>(entry->c1);
            green = static_cast<std::uint8_t>(entry->c2);
            blue = static_cast<std::uint8_t>(entry->c3);
        }
        argb[i] = std::uint32_t{value[3][i]} << 24U | red << 16U | green << 8U | blue;
    }
    return argb;
}

}  // namespace

Result<GroundPicture> read_picture(const std::filesystem::path& file, const Frame& frame,
                                   const Box& box, const PictureOptions& options,
                                   const Progress& progress) {
    const std::string name = file.filename().string();
    const GdalMessages messages;
    Result<DatasetPtr> source = open_picture(file);
    if (!source) return fail(source.error());
    std::array<double, 6> georeference{};
    if ((*source)->GetGeoTransform(georeference.data()) != CE_None)
        return fail(picture_error("picture_no_place", name, "it does not say where it lies",
                                  "save it as a GeoTIFF with its place and coordinate system"));
    if ((*source)->GetSpatialRef() == nullptr)
        return fail(picture_error("picture_no_crs", name, "it does not say its coordinate system",
                                  "save it as a GeoTIFF with its coordinate system"));
    if ((*source)->GetRasterCount() < 1 ||
        (*source)->GetRasterBand(1)->GetRasterDataType() != GDT_Byte)
        return fail(picture_error("picture_not_8_bit", name, "its bands do not hold 8 bits",
                                  "save it as a picture of 8 bits a band"));
    const std::optional<Place> place = place_of(**source, frame, box);
    if (!place)
        return fail(picture_error("picture_elsewhere", name, "it does not lie over the ranch",
                                  "give a picture of the ranch itself"));
    const Box& at = place->at;
    const double longest = std::max(at.max_x - at.min_x, at.max_y - at.min_y);
    const double pixel_m = std::max(place->pixel_m, longest / options.most_px_a_side);
    const auto count = [&](double length) {
        return std::max(1, static_cast<int>(std::ceil(length / pixel_m - 1e-9)));
    };
    const int nx = count(at.max_x - at.min_x);
    const int ny = count(at.max_y - at.min_y);
    const GDALColorTable* palette = (*source)->GetRasterBand(1)->GetColorTable();
    CPLStringList words;
    for (const std::string& word : warp_words(frame, at, nx, ny, palette != nullptr))
        words.AddString(word.c_str());
    const std::unique_ptr<GDALWarpAppOptions, decltype(&GDALWarpAppOptionsFree)> how(
        GDALWarpAppOptionsNew(words.List(), nullptr), &GDALWarpAppOptionsFree);
    Progress told = progress;
    GDALWarpAppOptionsSetProgress(how.get(), tell, &told);
    GDALDatasetH from = GDALDataset::ToHandle(source->get());
    const DatasetPtr warped(
        GDALDataset::FromHandle(GDALWarp("", nullptr, 1, &from, how.get(), nullptr)));
    if (progress.stopped())
        return fail({"cancelled", "Reading the picture was stopped", name, "start it again"});
    if (!warped || messages.failed())
        return fail(picture_error("picture_damaged", name, messages.reason(),
                                  "copy it again from where it came, or save it anew"));
    auto argb = colors_of(*warped, palette);
    if (!argb)
        return fail(picture_error("picture_damaged", name, argb.error().what,
                                  "copy it again from where it came, or save it anew"));
    return GroundPicture{nx, ny, std::move(*argb), at};
}

}  // namespace haylane
