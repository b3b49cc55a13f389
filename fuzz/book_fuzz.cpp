// A sound book with bytes of it changed: every four bytes of the input are a place (three bytes)
// and what is added to the byte there. Opened, checked and salvaged.
#include "core/ranch/check_ranch.h"
#include "fuzz/input_folder.h"
#include "gis/book/make_book.h"
#include "gis/book/read_book.h"
#include "gis/book/salvage_book.h"

#include <sstream>

namespace {

using namespace haylane;

std::string sound_book(const fuzz::InputFolder& folder) {
    std::filesystem::create_directory(folder.path() / "ranch");
    folder.put("ranch/pastures.geojson",
               R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":
{"name":"Home"},"geometry":{"type":"Polygon","coordinates":[[[-103.41,46.30],[-103.40,46.30],
[-103.40,46.31],[-103.41,46.31],[-103.41,46.30]]]}}]})");
    folder.put("ranch/herds.csv", "herd,head,weight_lb,pastures\nCows,200,1300,Home\n");
    if (!make_book(folder.path() / "ranch", folder.path() / "sound.gpkg", true)) std::abort();
    std::stringstream all;
    all << std::ifstream(folder.path() / "sound.gpkg", std::ios::binary).rdbuf();
    return all.str();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const fuzz::InputFolder folder;
    static const std::string sound = sound_book(folder);
    std::string bytes = sound;
    for (std::size_t i = 0; i + 4 <= std::min<std::size_t>(size, 256); i += 4) {
        const std::size_t at = (data[i] << 16U | data[i + 1] << 8U | data[i + 2]) % bytes.size();
        bytes[at] = static_cast<char>(static_cast<std::uint8_t>(bytes[at]) + data[i + 3]);
    }
    const auto book = folder.put("book.gpkg", bytes);
    if (const auto read = read_book(book)) {
        [[maybe_unused]] const auto checked = check_ranch(read->raw);
        return 0;
    }
    [[maybe_unused]] const auto saved = salvage_book(book, folder.path() / "fresh.gpkg");
    std::error_code ignored;
    std::filesystem::remove(folder.path() / "fresh.gpkg", ignored);
    return 0;
}
