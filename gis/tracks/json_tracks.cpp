// GDAL reads the file first, for all it refuses and repairs; the times are then taken from the JSON
// itself, since GDAL shortens long lists.
#include "gis/tracks/json_tracks.h"

#include "gis/tracks/json_document.h"
#include "gis/vector/file_scan.h"
#include "gis/vector/gpx_checks.h"
#include "gis/vector/gpx_time.h"
#include "gis/vector/read_layers.h"

#include <algorithm>
#include <optional>
#include <set>

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

// The list "times" of a feature; empty for one without.
std::vector<std::optional<GpxTimeRead>> times_of(const json& feature) {
    std::vector<std::optional<GpxTimeRead>> out;
    const json& properties = member(feature, "properties");
    const json& times = member(properties, "times");
    if (times.is_array()) add_times(times, out);
    return out;
}

// Whether all places of a list, however deep, are two numbers or more.
bool places_sound(const json& list, int depth = 0) {
    constexpr int kDeepest = 4;  // of a MultiPolygon
    if (!list.is_array() || depth > kDeepest) return false;
    if (list.empty()) return depth < 2;
    if (!list[0].is_array())
        return list.size() >= 2 && std::all_of(list.begin(), list.end(),
                                               [](const json& one) { return one.is_number(); });
    return std::all_of(list.begin(), list.end(),
                       [depth](const json& one) { return places_sound(one, depth + 1); });
}

// Why a feature's shape is none, where GDAL would only say that there is none.
std::optional<std::string> fault_of(const json& feature) {
    const json& geometry = member(feature, "geometry");
    if (!geometry.is_object() || geometry.contains("geometries")) return std::nullopt;
    const json& places = member(geometry, "coordinates");
    if (!places_sound(places)) return "the coordinates are not lists of two or three numbers each";
    if (places.empty()) return "the list of coordinates is empty";
    return std::nullopt;
}

class Reader {
  public:
    Reader(const json& document, const std::string& file) : tally_(file, "feature") {
        const json& features = member(document, "features");
        if (features.is_array()) {
            for (const json& feature : features) features_.push_back(&feature);
        } else {
            features_.push_back(&document);
        }
    }

    Result<RecordedFile> run(const std::vector<SourceLayer>& layers) {
        RecordedFile out;
        out.counted = "feature";
        for (std::size_t i = 0; i < features_.size(); ++i) check(i);
        for (const SourceLayer& layer : layers) {
            for (const Problem& problem : layer.problems)
                if (!faulty_.contains(problem.where)) out.problems.push_back(problem);
            for (std::size_t r = 0; r < layer.rows.size(); ++r) add(layer.rows[r].shape, r, out);
        }
        if (out.tracks.empty() && first_fault_) return fail(*first_fault_);
        const Problems mine = tally_.problems();
        out.problems.insert(out.problems.end(), mine.begin(), mine.end());
        return out;
    }

  private:
    void check(std::size_t i) {
        const auto fault = fault_of(*features_[i]);
        if (!fault) return;
        constexpr const char* kRemedy = "export the track again";
        const std::string where = tally_.where(i + 1);
        if (!first_fault_)
            first_fault_ = Error{"coordinate_unreadable", where + ": " + *fault, where, kRemedy};
        faulty_.insert(where);
        tally_.add("coordinate_unreadable", i + 1, *fault + "; the feature was left out", kRemedy);
    }

    void add(const LonLatShape& shape, std::size_t r, RecordedFile& out) {
        if (shape.lines.empty()) {
            if (!shape.empty())
                tally_.add("not_a_line", r + 1,
                           fmt::format("feature {} is no line; it was left out", r + 1),
                           "give the recorded track as a LineString");
            return;
        }
        RecordedTrack track;
        for (const LonLatLine& line : shape.lines)
            for (const LonLat at : line) track.points.push_back({.at = at, .line = r + 1});
        const auto times = r < features_.size() ? times_of(*features_[r])
                                                : std::vector<std::optional<GpxTimeRead>>{};
        if (times.size() == track.points.size()) {
            for (std::size_t i = 0; i < times.size(); ++i)
                if (times[i]) track.points[i].time = times[i]->at;
        } else if (!times.empty()) {
            tally_.add("times_do_not_fit", r + 1,
                       fmt::format("feature {} has {} times for {} points; none was used", r + 1,
                                   times.size(), track.points.size()),
                       "give one time a point");
        }
        out.tracks.push_back(std::move(track));
    }

    std::vector<const json*> features_;
    ProblemTally tally_;
    std::optional<Error> first_fault_;
    std::set<std::string> faulty_;  // features whose fault is told here, not by GDAL
};

}  // namespace

Result<RecordedFile> read_json_tracks(const std::filesystem::path& file) {
    const Result<Problems> scan = scan_text_file(file, TextForm::json);
    if (!scan) return fail(scan.error());
    const Result<json> document = parse_json(file);
    if (!document) return fail(document.error());
    const auto layers = read_layers(file, {.geojson = true});
    if (!layers) return fail(layers.error());
    return Reader(*document, file.filename().string()).run(*layers);
}

}  // namespace haylane
