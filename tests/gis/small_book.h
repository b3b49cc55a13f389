#pragma once
// A small book for tests: one pasture, one lot of hay; and a feeding to record in it.

#include "gis/book/make_book.h"
#include "gis/book/record_feedings.h"
#include "tests/gis/scratch.h"

#include <filesystem>
#include <stdexcept>
#include <string>

namespace haylane {

// Made in the folder `parent`, from a ranch folder beside it.
inline std::filesystem::path make_small_book(const std::filesystem::path& parent,
                                             const std::string& more_settings = "") {
    const auto put = [&](const char* name, const std::string& text) {
        std::filesystem::create_directories(parent / "ranch");
        std::ofstream(parent / "ranch" / name, std::ios::binary) << text;
    };
    put("pastures.geojson", kHomePasture);
    put("yards.geojson", R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":
{"name":"Stack"},"geometry":{"type":"Point","coordinates":[-103.405,46.301]}}]})");
    put("hay.csv", "lot,yard,bales,bale_lb\nA,Stack,100000,1250\n");
    if (!more_settings.empty()) put("settings.csv", "key,value\n" + more_settings);
    const std::filesystem::path book = parent / "ranch.gpkg";
    std::filesystem::remove(book);
    const auto made = make_book(parent / "ranch", book, false);
    if (!made) throw std::runtime_error(made.error().code + ": " + made.error().what);
    return book;
}

inline FeedingEntry small_feeding(const std::string& herd = "Cows") {
    FeedingEntry one;
    one.herd = herd;
    one.pasture = "Home";
    one.date = *parse_day("2027-01-11");
    one.lots = {{"A", 1.0}};
    one.lines = {{"d1", {{0.0, 0.0}, {100.0, 50.0}}}};
    return one;
}

}  // namespace haylane
