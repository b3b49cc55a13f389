// Plain text searching, not parsing: GDAL and its XML and JSON parsers do that, behind this gate.
#include "gis/vector/file_scan.h"

#include "gis/crs/to_lonlat.h"
#include "gis/gdal/gdal_session.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/file_text.h"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <optional>
#include <string>
#include <string_view>

#include <fmt/format.h>

namespace haylane {

namespace {

struct Text {
    std::string name;
    std::string text;
    bool utf16 = false;

    [[nodiscard]] std::string line_of(std::size_t at) const {
        const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(at, text.size()));
        return fmt::format("{}, line {}", name, 1 + std::count(text.begin(), end, '\n'));
    }
    [[nodiscard]] bool has(std::string_view word) const {
        return text.find(word) != std::string::npos;
    }
};

Error unreadable(const Text& text, std::size_t at, const std::string& value) {
    return {"coordinate_unreadable",
            fmt::format("{}: '{}' is no coordinate", text.line_of(at), shown(value)),
            text.line_of(at),
            "write longitude,latitude in decimal degrees, with decimal points and without a space "
            "after the comma"};
}

// One "lon,lat" or "lon,lat,height" of a KML coordinates element.
bool kml_tuple(std::string_view tuple) {
    int numbers = 0;
    while (true) {
        const std::size_t comma = tuple.find(',');
        if (!parse_number(std::string(tuple.substr(0, comma)), false)) return false;
        ++numbers;
        if (comma == std::string_view::npos) break;
        tuple.remove_prefix(comma + 1);
    }
    return numbers == 2 || numbers == 3;
}

std::optional<Error> check_kml_numbers(const Text& text) {
    constexpr std::string_view kOpen = "<coordinates>";
    for (std::size_t at = text.text.find(kOpen); at != std::string::npos;
         at = text.text.find(kOpen, at + 1)) {
        const std::size_t from = at + kOpen.size();
        const std::size_t close = text.text.find('<', from);
        std::string_view body = std::string_view(text.text).substr(from, close - from);
        while (!body.empty()) {
            const std::size_t start = body.find_first_not_of(" \t\r\n");
            if (start == std::string_view::npos) break;
            body.remove_prefix(start);
            const std::string_view tuple = body.substr(0, body.find_first_of(" \t\r\n"));
            if (!kml_tuple(tuple)) return unreadable(text, from, std::string(tuple.substr(0, 60)));
            body.remove_prefix(tuple.size());
        }
    }
    return std::nullopt;
}

Result<Problems> scan_kml(const Text& text) {
    if (text.has("<!DOCTYPE html") || text.has("<html")) {
        return fail(web_page(text.name));
    }
    if (text.has("<!DOCTYPE") || text.has("<!ENTITY")) {
        return fail(document_type_refused(text.name));
    }
    if (!text.has("<kml") && !text.has(":kml")) {
        return fail({"not_kml", fmt::format("{} is not a KML file", text.name), text.name,
                     "export it again from the map"});
    }
    if (const auto bad = check_kml_numbers(text)) return fail(*bad);
    Problems problems;
    if (text.has("<NetworkLink")) {
        problems.push_back({"link_not_followed", Severity::warning, text.name,
                            "the file links to another address; the link is not followed",
                            "save the linked map as a file of its own"});
    }
    return problems;
}

// The coordinate system that older GeoJSON names in its `crs`; GDAL passes over one that it does
// not know.
std::optional<Error> unknown_crs(const Text& text, std::string near) {
    std::erase_if(near, [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; });
    constexpr std::string_view kName = R"("properties":{"name":")";
    const std::size_t at = near.find(kName);
    if (!near.starts_with(R"("crs":{)") || at == std::string::npos) return std::nullopt;
    const std::size_t from = at + kName.size();
    const std::size_t to = near.find('"', from);
    const std::string name = near.substr(from, to - from);
    // Codes and names only: PROJ would open files for pipelines and the like.
    const bool plain = std::all_of(name.begin(), name.end(), [](unsigned char c) {
        return std::isalnum(c) != 0 || c == ':' || c == '.' || c == '-' || c == '_';
    });
    if (to == std::string::npos || !plain || ToLonLat::from_crs(name)) return std::nullopt;
    return Error{"crs_unreadable",
                 fmt::format("{}: {} is no known coordinate system", text.name, shown(name)),
                 text.name, "save the map again in WGS 84 degrees"};
}

Result<Problems> scan_json(const Text& text) {
    if (text.utf16) {
        return fail({"broken_json",
                     fmt::format("{} is written in UTF-16, and GeoJSON must be UTF-8", text.name),
                     text.name, "save it again as UTF-8"});
    }
    const std::size_t first = text.text.find_first_not_of(" \t\r\n");
    if (text.text[first] == '<' && text.has("<kml")) {
        return fail({"broken_json", fmt::format("{} is KML, not GeoJSON", text.name), text.name,
                     "give it the ending .kml"});
    }
    if (text.text[first] != '{') {
        return fail({"broken_json", fmt::format("{} is not GeoJSON", text.name), text.name,
                     "save the map again as GeoJSON"});
    }
    const std::size_t crs = text.text.find("\"crs\"");
    if (crs != std::string::npos) {
        const std::string near = text.text.substr(crs, 200);
        if (near.find("\"link\"") != std::string::npos) {
            return fail(
                {"link_refused",
                 fmt::format("{} takes its coordinate system from another address", text.name),
                 text.name, "save the map again in WGS 84 degrees"});
        }
        if (auto unknown = unknown_crs(text, near)) return fail(std::move(*unknown));
    }
    Problems problems;
    const std::size_t features = text.text.find("\"features\"");
    if (features != std::string::npos &&
        text.text.find("\"features\"", features + 1) != std::string::npos) {
        problems.push_back({"json_duplicate_key", Severity::warning, text.name,
                            "the key 'features' stands in the file more than once",
                            "check that no feature is missing, or save the map again"});
    }
    return problems;
}

}  // namespace

Error web_page(const std::string& name) {
    return {"wrong_content", fmt::format("{} is a web page", name), name,
            "the download was a sign-in or error page: fetch the file again"};
}

Error document_type_refused(const std::string& name) {
    return {"document_type_refused",
            fmt::format("{} holds a document type declaration, which is not allowed", name), name,
            "export the file again with another program"};
}

std::optional<Error> wrong_content(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::string head(4, '\0');
    in.read(head.data(), 4);
    const char* what = nullptr;
    if (head.starts_with("PK\x03\x04")) what = "a zip archive: unpack it first";
    if (head.starts_with("\x1F\x8B")) what = "a gzip archive: unpack it first";
    if (head.starts_with("SQLi")) what = "a database: give it the ending .gpkg";
    if (what == nullptr) return std::nullopt;
    const std::string name = file.filename().string();
    return Error{"wrong_content", fmt::format("{} is {}", name, what), name,
                 "give the file its true ending, or unpack it"};
}

Result<Problems> scan_text_file(const std::filesystem::path& file, TextForm form) {
    if (const auto wrong = wrong_content(file)) return fail(*wrong);
    Result<FileText> read = read_file_text(file);
    if (!read) return fail(read.error());
    const Text text{file.filename().string(), std::move(read->text), read->was_utf16};
    return form == TextForm::kml ? scan_kml(text) : scan_json(text);
}

}  // namespace haylane
