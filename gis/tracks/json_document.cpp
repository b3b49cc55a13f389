// The place of a fault is counted in the text as it was decoded, without a byte-order mark.
#include "gis/tracks/json_document.h"

#include "gis/gdal/gdal_session.h"
#include "gis/vector/file_text.h"

#include <algorithm>
#include <string>

#include <fmt/format.h>

namespace haylane {

using nlohmann::json;

namespace {

// What is wrong with the text, and where: lines and columns are counted from 1.
Error not_json(const std::string& name, const std::string& text, const json::exception& thrown) {
    std::string what = "this is not JSON";
    std::string remedy = "export it again";
    std::size_t at = 0;
    if (const auto* wrong = dynamic_cast<const json::parse_error*>(&thrown)) {
        at = wrong->byte == 0 ? 0 : wrong->byte - 1;
        if (at >= text.size()) what = "the file breaks off here";
        if (at < text.size() && text[at] == '{' && text.substr(0, at).find('}') != text.npos) {
            what = "a second object begins here: the file is a sequence of features, not one list";
            remedy = "save it as a FeatureCollection";
        }
    } else {  // the number is quoted in what was thrown, and nowhere else
        const std::string said = thrown.what();
        const std::size_t quote = said.find('\'');
        const std::string number = said.substr(quote + 1, said.rfind('\'') - quote - 1);
        at = std::min(text.find(number), text.size());
        what = fmt::format("the number {} is out of range", shown(number.substr(0, 20)));
    }
    const std::string before = text.substr(0, at);
    const std::size_t line_start = before.rfind('\n') == before.npos ? 0 : before.rfind('\n') + 1;
    const std::string where =
        fmt::format("{}, line {}, column {}", name,
                    1 + std::count(before.begin(), before.end(), '\n'), at - line_start + 1);
    return {"broken_json", fmt::format("{}: {}", where, what), where, remedy};
}

}  // namespace

Result<json> parse_json(const std::filesystem::path& file) {
    const Result<FileText> text = read_file_text(file);
    if (!text) return fail(text.error());
    const std::string name = file.filename().string();
    json document;
    try {
        document = json::parse(text->text);
    } catch (const json::exception& thrown) {
        return fail(not_json(name, text->text, thrown));
    }
    if (!member(document, "type").is_string())
        return fail({"broken_json",
                     fmt::format("{} is JSON but not GeoJSON: it has no 'type'", name), name,
                     "give the file that the receiver recorded"});
    return document;
}

const json& member(const json& object, const char* key) {
    static const json kNone;
    if (!object.is_object()) return kNone;
    const auto found = object.find(key);
    return found == object.end() ? kNone : *found;
}

}  // namespace haylane
