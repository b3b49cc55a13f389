#include "gis/tracks/csv_tracks.h"

#include "gis/gdal/gdal_session.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/csv_table.h"
#include "gis/vector/file_text.h"
#include "gis/vector/gpx_checks.h"
#include "gis/vector/gpx_time.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

using Names = std::vector<const char*>;
const Names kLat{"lat", "latitude", "lat_deg", "location-lat", "y"};
const Names kLon{"lon", "lng", "long", "longitude", "lon_deg", "location-long", "x"};
const Names kTime{"time",     "timestamp", "time_stamp",    "datetime",       "date_time",
                  "time_utc", "utc",       "gnss_time_utc", "task_time_local"};
const Names kWho{"individual-local-identifier",
                 "id_collar",
                 "device",
                 "device_id",
                 "vehicle",
                 "track",
                 "track_id"};
constexpr const char* kElevation = "ele";

std::optional<std::size_t> column(const CsvTable& table, const Names& names) {
    for (const char* name : names) {
        for (std::size_t i = 0; i < table.header.size(); ++i)
            if (lower_ascii(table.header[i]) == name) return i;
    }
    return std::nullopt;
}

std::optional<GpxTime> from_number(double since) {
    if (since > 1e11 && since < 1e13)
        return GpxTime(std::chrono::milliseconds(std::llround(since)));
    if (since > 1e8 && since < 1e10)
        return GpxTime(std::chrono::milliseconds(std::llround(since * 1000.0)));
    return std::nullopt;
}

class Reader {
  public:
    Reader(const CsvTable& table, std::string file)
        : table_(table), file_(std::move(file)), tally_(file_) {}

    Result<RecordedFile> run() {
        const auto lat = column(table_, kLat);
        const auto lon = column(table_, kLon);
        if (!lat || !lon)
            return fail({"csv_columns_missing",
                         fmt::format("{}: no columns of latitude and longitude; the heading is {}",
                                     file_, heading()),
                         fmt::format("{}, line 1", file_),
                         fmt::format("call them lat and lon; known: {} and {}",
                                     fmt::join(kLat, ", "), fmt::join(kLon, ", "))});
        const auto time = column(table_, kTime);
        const auto who = column(table_, kWho);
        const auto ele = column(table_, {kElevation});
        for (const CsvRow& row : table_.rows) {
            GpxPoint point{.line = static_cast<std::size_t>(row.line)};
            if (!place(row, *lat, *lon, point)) continue;
            if (time) point.time = read_time(row, *time);
            if (ele) point.elevation_m = parse_number(row.cells[*ele], comma());
            track_of(who ? trimmed(row.cells[*who]) : "").points.push_back(point);
        }
        if (out_.tracks.empty() && first_bad_) return fail(*first_bad_);
        out_.problems = table_.problems;
        const Problems mine = tally_.problems();
        out_.problems.insert(out_.problems.end(), mine.begin(), mine.end());
        if (!time)
            out_.problems.push_back(
                {"csv_no_time", Severity::warning, fmt::format("{}, line 1", file_),
                 fmt::format("no column of times; the heading is {}", heading()),
                 fmt::format("call it time; known: {}", fmt::join(kTime, ", "))});
        return std::move(out_);
    }

  private:
    [[nodiscard]] bool comma() const { return table_.separator == ';'; }
    [[nodiscard]] std::string heading() const {
        return shown(fmt::format("{}", fmt::join(table_.header, ", ")).substr(0, 200));
    }

    bool place(const CsvRow& row, std::size_t lat, std::size_t lon, GpxPoint& point) {
        const auto y = parse_number(row.cells[lat], comma());
        const auto x = parse_number(row.cells[lon], comma());
        if (!x || !y)
            return bad(row, "coordinate_unreadable",
                       fmt::format("'{}, {}' is no position in decimal degrees",
                                   shown(trimmed(row.cells[lat]).substr(0, 40)),
                                   shown(trimmed(row.cells[lon]).substr(0, 40))),
                       "write latitude and longitude as decimal degrees: 42.87, -100.55");
        point.at = {*x, *y};
        if (!on_earth(point.at))
            return bad(row, "coordinates_out_of_range",
                       fmt::format("latitude {} and longitude {} are not on the earth", *y, *x),
                       "check whether the latitude and longitude columns are exchanged");
        if (has_fix(point.at) && *x != 0.0 && *y != 0.0) return true;
        tally_.add("no_fix", static_cast<std::size_t>(row.line),
                   "a position of 0 means that the receiver had no fix; the row was left out",
                   "nothing to do unless there are many");
        return false;
    }

    bool bad(const CsvRow& row, const char* code, const std::string& text, const char* remedy) {
        const std::size_t line = static_cast<std::size_t>(row.line);
        if (!first_bad_)
            first_bad_ = Error{code, fmt::format("{}: {}", tally_.where(line), text),
                               tally_.where(line), remedy};
        tally_.add(code, line, text + "; the row was left out", remedy);
        return false;
    }

    std::optional<GpxTime> read_time(const CsvRow& row, std::size_t at) {
        const std::string text = trimmed(row.cells[at]);
        if (text.empty()) return std::nullopt;
        if (const auto number = parse_number(text, comma())) {
            if (const auto time = from_number(*number)) return time;
        } else if (const auto time = parse_gpx_time(text)) {
            if (!time->zone_given)
                tally_.add("time_without_zone", static_cast<std::size_t>(row.line),
                           fmt::format("'{}' names no time zone; it was taken as UTC", shown(text)),
                           "write times in UTC, with Z at the end");
            return time->at;
        }
        tally_.add(
            "time_unreadable", static_cast<std::size_t>(row.line),
            fmt::format("'{}' is no time; the row is used without it", shown(text.substr(0, 60))),
            "write times as 2027-01-11T14:00:00Z");
        return std::nullopt;
    }

    RecordedTrack& track_of(const std::string& who) {
        const auto [at, fresh] = index_.emplace(who, out_.tracks.size());
        if (fresh) out_.tracks.push_back({who, {}});
        return out_.tracks[at->second];
    }

    const CsvTable& table_;
    std::string file_;
    ProblemTally tally_;
    RecordedFile out_;
    std::map<std::string, std::size_t> index_;
    std::optional<Error> first_bad_;
};

}  // namespace

Result<RecordedFile> read_csv_tracks(const std::filesystem::path& file) {
    const Result<CsvTable> table = read_csv(file);
    if (!table) return fail(table.error());
    return Reader(*table, file.filename().string()).run();
}

}  // namespace haylane
