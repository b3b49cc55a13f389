// GDAL reads the file first, for all it refuses and repairs; the times are then taken from the JSON
// itself, since GDAL shortens long lists.
#include "gis/tracks/json_tracks.h"

#include "gis/gdal/gdal_session.h"
#include "gis/vector/file_text.h"
#include "gis/vector/gpx_checks.h"
#include "gis/vector/gpx_time.h"
#include "gis/vector/read_layers.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using nlohmann::json;

// Every time of a list, and of lists in it, in order; null or unreadable ones as such.
void add_times(const json& list, std::vector<std::optional<GpxTimeRead>>& times) {
    for (const json& one : list) {
        if (one.is_array()) {
            for (const json& inner : one)
                times.push_back(inner.is_string() ? parse_gpx_time(inner.get<std::string>())
                                                  : std::nullopt);
        } else {
            times.push_back(one.is_string() ? parse_gpx_time(one.get<std::string>())
                                            : std::nullopt);
        }
    }
}

// The lists "times" of the file's features, in file order; empty for one without.
Result<std::vector<std::vector<std::optional<GpxTimeRead>>>> times_of(
    const std::filesystem::path& file) {
    const Result<FileText> text = read_file_text(file);
    if (!text) return fail(text.error());
    const json document = json::parse(text->text, nullptr, false);
    std::vector<std::vector<std::optional<GpxTimeRead>>> all;
    const auto add = [&all](const json& feature) {
        all.emplace_back();
        if (!feature.is_object()) return;
        const auto properties = feature.find("properties");
        if (properties == feature.end() || !properties->is_object()) return;
        const auto times = properties->find("times");
        if (times != properties->end() && times->is_array()) add_times(*times, all.back());
    };
    if (document.is_object() && document.contains("features") && document["features"].is_array()) {
        for (const json& feature : document["features"]) add(feature);
    } else {
        add(document);
    }
    return all;
}

}  // namespace

Result<RecordedFile> read_json_tracks(const std::filesystem::path& file) {
    const auto layers = read_layers(file);
    if (!layers) return fail(layers.error());
    const auto times = times_of(file);
    if (!times) return fail(times.error());
    RecordedFile out;
    const std::string name = file.filename().string();
    ProblemTally tally(name);
    for (const SourceLayer& layer : *layers) {
        out.problems.insert(out.problems.end(), layer.problems.begin(), layer.problems.end());
        for (std::size_t r = 0; r < layer.rows.size(); ++r) {
            const LonLatShape& shape = layer.rows[r].shape;
            if (shape.lines.empty()) {
                if (!shape.empty())
                    tally.add("not_a_line", r + 1,
                              fmt::format("feature {} is no line; it was left out", r + 1),
                              "give the recorded track as a LineString");
                continue;
            }
            RecordedTrack track;
            for (const LonLatLine& line : shape.lines)
                for (const LonLat at : line) track.points.push_back({.at = at, .line = r + 1});
            const bool known = r < times->size() && !(*times)[r].empty();
            if (known && (*times)[r].size() == track.points.size()) {
                for (std::size_t i = 0; i < track.points.size(); ++i)
                    if ((*times)[r][i]) track.points[i].time = (*times)[r][i]->at;
            } else if (known) {
                tally.add("times_do_not_fit", r + 1,
                          fmt::format("feature {} has {} times for {} points; none was used", r + 1,
                                      (*times)[r].size(), track.points.size()),
                          "give one time a point");
            }
            out.tracks.push_back(std::move(track));
        }
    }
    const Problems mine = tally.problems();
    out.problems.insert(out.problems.end(), mine.begin(), mine.end());
    return out;
}

}  // namespace haylane
