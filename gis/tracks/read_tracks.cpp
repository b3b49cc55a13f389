// The hash is FNV-1a of 64 bits (Fowler, Noll, Vo; constants from memory) over time and place of
// every point.
#include "gis/tracks/read_tracks.h"

#include "gis/gdal/gdal_session.h"
#include "gis/tracks/csv_tracks.h"
#include "gis/tracks/json_tracks.h"
#include "gis/tracks/kml_tracks.h"
#include "gis/vector/file_scan.h"
#include "gis/vector/file_text.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <fstream>

#include <fmt/format.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

enum class Form { gpx, kml, json, csv };

std::string head_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::string head(4096, '\0');
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    head.resize(static_cast<std::size_t>(in.gcount()));
    std::erase(head, '\0');  // UTF-16 letters of ASCII as ASCII
    return lower_ascii(head);
}

// What a file's ending would make of it; nullopt for endings that say nothing.
std::optional<Form> form_named(const fs::path& file) {
    const std::string ending = lower_ascii(file.extension().string());
    if (ending == ".gpx") return Form::gpx;
    if (ending == ".kml") return Form::kml;
    if (ending == ".geojson" || ending == ".json") return Form::json;
    if (ending == ".csv" || ending == ".txt") return Form::csv;
    return std::nullopt;
}

const char* name_of(Form form) {
    switch (form) {
        case Form::gpx:
            return "GPX";
        case Form::kml:
            return "KML";
        case Form::json:
            return "GeoJSON";
        case Form::csv:
            return "a table";
    }
    return "GPX";
}

// By content; by the ending where the content says nothing.
Form form_of(const fs::path& file) {
    const std::string head = head_of(file);
    if (head.find("<gpx") != std::string::npos) return Form::gpx;
    if (head.find("<kml") != std::string::npos || head.find(":kml") != std::string::npos)
        return Form::kml;
    const auto named = form_named(file);
    const std::size_t first = head.find_first_not_of(" \t\r\n\xef\xbb\xbf\xff\xfe");
    if (first != std::string::npos && head[first] == '{') return Form::json;
    if (first != std::string::npos && head[first] == '<' && named != Form::kml) return Form::gpx;
    return named.value_or(Form::csv);
}

Result<RecordedFile> from_gpx(const fs::path& file) {
    Result<GpxFile> read = read_gpx(file);
    if (!read) return fail(read.error());
    RecordedFile out;
    out.problems = std::move(read->problems);
    for (GpxTrack& track : read->tracks) {
        if (track.route) {
            out.problems.push_back(
                {"route_not_a_track", Severity::warning,
                 fmt::format("{}, line {}", file.filename().string(), track.label.line),
                 "this is a route, planned and not driven; it was not used",
                 "give the track that was recorded"});
            continue;
        }
        RecordedTrack one{track.label.name, {}};
        for (GpxSegment& segment : track.segments) {
            if (one.points.empty()) {
                one.points = std::move(segment.points);
            } else {
                one.points.insert(one.points.end(), segment.points.begin(), segment.points.end());
            }
            segment.points = {};
        }
        if (!one.points.empty()) out.tracks.push_back(std::move(one));
    }
    return out;
}

Result<RecordedFile> read_form(const fs::path& file, Form form) {
    switch (form) {
        case Form::gpx:
            return from_gpx(file);
        case Form::kml:
            return read_kml_tracks(file);
        case Form::json:
            return read_json_tracks(file);
        case Form::csv:
            return read_csv_tracks(file);
    }
    return from_gpx(file);
}

std::string hash_of(const std::vector<RecordedTrack>& tracks) {
    std::uint64_t hash = 14695981039346656037ULL;
    const auto add = [&hash](std::int64_t value) {
        auto bits = static_cast<std::uint64_t>(value);
        for (int i = 0; i < 8; ++i, bits >>= 8U) hash = (hash ^ (bits & 0xFFU)) * 1099511628211ULL;
    };
    for (const RecordedTrack& track : tracks) {
        for (const GpxPoint& point : track.points) {
            add(point.time ? point.time->time_since_epoch().count() : -1);
            add(std::llround(point.at.lon_deg * 1e7));
            add(std::llround(point.at.lat_deg * 1e7));
        }
    }
    return fmt::format("{:016x}", hash);
}

void note_times(RecordedFile& out) {
    for (const RecordedTrack& track : out.tracks) {
        const auto without = static_cast<std::size_t>(
            std::count_if(track.points.begin(), track.points.end(),
                          [](const GpxPoint& point) { return !point.time; }));
        if (without == 0) continue;
        const std::string called = track.name.empty() ? "a track" : "'" + track.name + "'";
        const bool all = without == track.points.size();
        out.problems.push_back(
            {"track_without_times", Severity::warning, out.where(track.points.front().line),
             all ? fmt::format("{} has no times, and without them laying hay looks like driving; "
                               "it was not used",
                               called)
                 : fmt::format("{} of {} points of {} have no time and were left out", without,
                               track.points.size(), called),
             "turn times on in the recorder, or export the track with its times"});
    }
}

}  // namespace

std::string RecordedFile::where(std::size_t line) const {
    return fmt::format("{}, {} {}", file, counted, line);
}

std::size_t RecordedFile::points() const {
    std::size_t sum = 0;
    for (const RecordedTrack& track : tracks) sum += track.points.size();
    return sum;
}

std::size_t RecordedFile::points_without_time() const {
    std::size_t sum = 0;
    for (const RecordedTrack& track : tracks)
        for (const GpxPoint& point : track.points) sum += point.time ? 0U : 1U;
    return sum;
}

std::vector<TrackPoint> in_frame(const RecordedTrack& track, const Frame& frame) {
    std::vector<TrackPoint> out;
    out.reserve(track.points.size());
    for (const GpxPoint& point : track.points) {
        TrackPoint one{frame.to_frame(point.at), {}, point.elevation_m};
        if (point.time)
            one.time_s = static_cast<double>(point.time->time_since_epoch().count()) / 1000.0;
        out.push_back(one);
    }
    return out;
}

Result<RecordedFile> read_tracks(const fs::path& file) {
    const std::string name = file.filename().string();
    std::error_code code;
    if (!fs::is_regular_file(file, code))
        return fail({"file_missing", fmt::format("there is no file {}", file.string()),
                     file.string(), "check the name and the folder"});
    const Result<void> size = check_size(file, 256U << 20U);
    if (!size) return fail(size.error());
    if (const auto wrong = wrong_content(file)) return fail(*wrong);
    const Form form = form_of(file);
    Result<RecordedFile> out = read_form(file, form);
    if (!out) return out;
    if (form_named(file) != form)
        out->problems.push_back({"named_otherwise", Severity::warning, name,
                                 fmt::format("the file is {} by what stands in it, whatever its "
                                             "name says; it was read as that",
                                             name_of(form)),
                                 "give the file the ending of what it is"});
    out->file = name;
    std::erase_if(out->tracks, [](const RecordedTrack& track) { return track.points.empty(); });
    for (RecordedTrack& track : out->tracks) track.name = shown(track.name);
    out->hash = hash_of(out->tracks);
    note_times(*out);
    if (out->tracks.empty())
        out->problems.push_back({"tracks_empty", Severity::warning, name,
                                 "the file holds no recorded track",
                                 "give the file that the receiver recorded"});
    return out;
}

}  // namespace haylane
