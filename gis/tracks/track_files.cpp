#include "gis/tracks/track_files.h"

#include "gis/vector/file_text.h"

#include <algorithm>
#include <array>
#include <string>

#include <fmt/format.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

bool may_be_track(const fs::path& file) {
    constexpr std::array<const char*, 5> kEndings{".gpx", ".kml", ".geojson", ".json", ".csv"};
    const std::string ending = lower_ascii(file.extension().string());
    return std::find(kEndings.begin(), kEndings.end(), ending) != kEndings.end();
}

void add_folder(const fs::path& folder, TrackFiles& out) {
    std::vector<fs::path> found;
    std::vector<std::string> others;
    std::error_code code;
    constexpr auto kSkip = fs::directory_options::skip_permission_denied;
    for (fs::recursive_directory_iterator at(folder, kSkip, code), end; !code && at != end;
         at.increment(code)) {
        if (!at->is_regular_file(code)) continue;
        if (may_be_track(at->path())) {
            found.push_back(at->path());
        } else {
            others.push_back(at->path().filename().string());
        }
    }
    std::sort(found.begin(), found.end());
    std::sort(others.begin(), others.end());
    out.files.insert(out.files.end(), found.begin(), found.end());
    if (others.empty()) return;
    out.problems.push_back(
        {"not_a_track_file", Severity::info, folder.string(),
         fmt::format("{} other files in the folder were passed over, {} the first", others.size(),
                     others.front()),
         "export other receivers' files as GPX, KML, GeoJSON or CSV"});
}

}  // namespace

Result<TrackFiles> track_files(const std::vector<fs::path>& given) {
    TrackFiles out;
    for (const fs::path& one : given) {
        std::error_code code;
        if (fs::is_directory(one, code)) {
            add_folder(one, out);
        } else if (fs::exists(one, code)) {
            out.files.push_back(one);
        } else {
            return fail({"file_missing", fmt::format("there is no file {}", one.string()),
                         one.string(), "check the name and the folder"});
        }
    }
    if (out.files.empty())
        return fail({"no_track_files", "there is no track file in what was given",
                     given.empty() ? "" : given.front().string(),
                     "give files that end in gpx, kml, geojson or csv, or the folder they are in"});
    return out;
}

}  // namespace haylane
