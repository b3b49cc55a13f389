#include "gis/vector/gpx_builder.h"

#include "gis/gdal/gdal_session.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/file_scan.h"
#include "gis/vector/file_text.h"
#include "gis/vector/gpx_time.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

// The land's heights and the deepest shores, with room to spare (from memory).
constexpr double kLowest_m = -500.0;
constexpr double kHighest_m = 9000.0;

struct Name {
    std::string_view prefix;
    std::string_view local;
};

Name split(std::string_view name) {
    const std::size_t colon = name.find(':');
    if (colon == std::string_view::npos) return {{}, name};
    return {name.substr(0, colon), name.substr(colon + 1)};
}

std::optional<std::string> value_of(const XmlAttributes& attributes, std::string_view key) {
    for (const auto& [name, value] : attributes) {
        if (name == key) return std::string(value);
    }
    return std::nullopt;
}

struct BadPoint {
    const char* code = "coordinate_unreadable";
    std::string text;
    const char* remedy = "write the coordinate as decimal degrees";
};

// The place that the attributes give, or what is wrong with them.
std::optional<BadPoint> read_place(const XmlAttributes& attributes, LonLat& at) {
    const auto lat = value_of(attributes, "lat");
    const auto lon = value_of(attributes, "lon");
    if (!lat || !lon || trimmed(*lat).empty() || trimmed(*lon).empty()) {
        return BadPoint{.text = "the point lacks its latitude or longitude"};
    }
    const auto y = parse_number(*lat, false);
    const auto x = parse_number(*lon, false);
    if (!x || !y) {
        const std::string& value = y ? *lon : *lat;
        BadPoint bad{.text = fmt::format("'{}' is no coordinate", shown(value))};
        if (value.find(',') != std::string::npos) bad.remedy = "use a decimal point, not a comma";
        return bad;
    }
    at = {*x, *y};
    if (on_earth(at)) return std::nullopt;
    const bool swapped = std::abs(*y) <= 180.0 && std::abs(*x) <= 90.0;
    return BadPoint{"coordinates_out_of_range",
                    fmt::format("latitude {} and longitude {} are not on the earth", *y, *x),
                    swapped ? "check whether latitude and longitude are exchanged"
                            : "correct the point, or remove it"};
}

bool wrong_clock(GpxTime time) {
    const std::chrono::year year =
        std::chrono::year_month_day{std::chrono::floor<std::chrono::days>(time)}.year();
    return year < std::chrono::year(1990) || year > std::chrono::year(2100);
}

}  // namespace

bool GpxBuilder::in(Place place) const {
    return std::find(stack_.begin(), stack_.end(), place) != stack_.end();
}

GpxLabel& GpxBuilder::label() {
    return in(Place::waypoint) ? waypoint_.label : out_.tracks.back().label;
}

void GpxBuilder::count_item() {
    if (++items_ <= limits_.most_points) return;
    error_ = Error{"too_many_features",
                   fmt::format("{} holds more than {} points", file_, limits_.most_points), file_,
                   "keep only the ranch's own tracks in it"};
}

void GpxBuilder::document_type(std::string_view root) {
    if (lower_ascii(std::string(root)) == "html") {
        open_root(root, {}, 1);
        return;
    }
    error_ = document_type_refused(file_);
}

void GpxBuilder::open_root(std::string_view name, const XmlAttributes& attributes,
                           std::size_t line) {
    const Name parts = split(name);
    const std::string local = lower_ascii(std::string(parts.local));
    if (local == "html") {
        error_ = web_page(file_);
        return;
    }
    if (local != "gpx") {
        error_ = Error{"not_gpx",
                       fmt::format("{} is not a GPX file: it begins with <{}>", file_,
                                   shown(std::string(name))),
                       tally_.where(line), "export it again from the receiver or the map"};
        return;
    }
    root_seen_ = true;
    prefix_ = parts.prefix;
    const auto version = value_of(attributes, "version");
    if (version && *version != "1.1" && *version != "1.0") {
        tally_.add("gpx_version", line,
                   fmt::format("GPX version '{}' is not known; the file was read as version 1.1",
                               shown(*version)),
                   "check that nothing is missing, or export it as GPX 1.1");
    }
}

GpxBuilder::Place GpxBuilder::place_in_item(std::string_view local, bool own) const {
    if (!own || local == "extensions") return Place::extension;
    if (stack_.back() != Place::track) return Place::field;
    if (out_.tracks.back().route) return local == "rtept" ? Place::point : Place::field;
    if (local == "trkseg") return Place::segment;
    return local == "trkpt" ? Place::point : Place::field;
}

GpxBuilder::Place GpxBuilder::place_of(std::string_view local, bool own) const {
    switch (stack_.back()) {
        case Place::root:
            if (!own) return Place::other;
            if (local == "trk" || local == "rte") return Place::track;
            return local == "wpt" ? Place::waypoint : Place::other;
        case Place::segment:
            return own && local == "trkpt" ? Place::point : Place::other;
        case Place::track:
        case Place::waypoint:
            return place_in_item(local, own);
        case Place::point:
            return own && (local == "ele" || local == "time") ? Place::field : Place::other;
        case Place::extension:
            return Place::extension;
        default:
            return Place::other;
    }
}

void GpxBuilder::start(std::string_view name, const XmlAttributes& attributes, std::size_t line) {
    if (error_) return;
    if (stack_.size() >= limits_.deepest) {
        error_ = Error{"nested_too_deeply",
                       fmt::format("{}: more than {} elements inside each other",
                                   tally_.where(line), limits_.deepest),
                       tally_.where(line), "export the file again with another program"};
        return;
    }
    leaf_ = true;
    line_ = line;
    text_.clear();
    text_cut_ = false;
    if (stack_.empty()) {
        open_root(name, attributes, line);
        stack_.push_back(Place::root);
        return;
    }
    const Name parts = split(name);
    const Place place = place_of(parts.local, parts.prefix == prefix_);
    stack_.push_back(place);
    open(place, parts.local, attributes, line);
}

void GpxBuilder::open(Place place, std::string_view local, const XmlAttributes& attributes,
                      std::size_t line) {
    if (place == Place::track) {
        out_.tracks.push_back({.label = {.line = line}, .route = local == "rte"});
        count_item();
    } else if (place == Place::segment) {
        out_.tracks.back().segments.emplace_back();
        count_item();
    } else if (place == Place::point) {
        open_point(attributes, line);
        if (out_.tracks.back().segments.empty()) out_.tracks.back().segments.emplace_back();
    } else if (place == Place::waypoint) {
        waypoint_ = {.label = {.line = line}};
        open_point(attributes, line);
    } else if (place == Place::field && local == "link") {
        add_field("link", value_of(attributes, "href").value_or(""));
    }
}

void GpxBuilder::open_point(const XmlAttributes& attributes, std::size_t line) {
    point_ = {.line = line};
    const auto bad = read_place(attributes, point_.at);
    point_good_ = !bad;
    if (!bad) return;
    if (!first_bad_) {
        first_bad_ = Error{bad->code, fmt::format("{}: {}", tally_.where(line), bad->text),
                           tally_.where(line), bad->remedy};
    }
    ++bad_points_;
    tally_.add(bad->code, line, bad->text + "; the point was left out", bad->remedy);
}

void GpxBuilder::end(std::string_view name) {
    if (error_) return;
    const Place place = stack_.back();
    if (leaf_) close_leaf(place, split(name).local);
    leaf_ = false;
    stack_.pop_back();
    if (place == Place::point || place == Place::waypoint) close_point(place);
}

void GpxBuilder::close_leaf(Place place, std::string_view local) {
    if (place != Place::field && place != Place::extension) return;
    std::string value = trimmed(text_);
    if (value.empty()) return;
    const bool of_point = in(Place::point) || (in(Place::waypoint) && place == Place::field);
    if (of_point && local == "ele") return set_elevation(value);
    if (of_point && local == "time") return set_time(value);
    if (!in(Place::point)) add_field(local, std::move(value));
}

void GpxBuilder::close_point(Place place) {
    if (!point_good_) return;
    if (place == Place::waypoint && !has_fix(point_.at)) {
        tally_.add("no_fix", point_.line,
                   "position 0, 0 means that the receiver had no fix; the waypoint was left out",
                   "record the place again, or remove it");
        return;
    }
    ++points_;
    count_item();
    if (place == Place::waypoint) {
        waypoint_.point = point_;
        out_.waypoints.push_back(std::move(waypoint_));
    } else {
        out_.tracks.back().segments.back().points.push_back(point_);
    }
}

void GpxBuilder::set_elevation(const std::string& value) {
    const auto elevation_m = parse_number(value, false);
    if (elevation_m && *elevation_m >= kLowest_m && *elevation_m <= kHighest_m) {
        point_.elevation_m = elevation_m;
        return;
    }
    tally_.add(
        "elevation_unreadable", line_,
        fmt::format("'{}' is no elevation in metres; the point is used without it", shown(value)),
        "correct it if the elevation matters");
}

void GpxBuilder::set_time(const std::string& value) {
    const auto time = parse_gpx_time(value);
    if (!time) {
        tally_.add("time_unreadable", line_,
                   fmt::format("'{}' is no time; the point is used without it", shown(value)),
                   "write times as 2027-01-11T14:00:00Z");
        return;
    }
    point_.time = time->at;
    if (!time->zone_given) {
        tally_.add("time_without_zone", line_,
                   fmt::format("'{}' names no time zone; it was taken as UTC", shown(value)),
                   "check that the times are UTC, as GPX asks");
    }
    if (wrong_clock(time->at)) {
        tally_.add("clock_wrong", line_,
                   fmt::format("the time {} cannot be right: the clock was wrong", shown(value)),
                   "check the receiver's clock");
    }
}

void GpxBuilder::add_field(std::string_view key, std::string value) {
    if (value.empty()) return;
    GpxLabel& about = label();
    if (key == "name") {
        if (about.name.empty()) about.name = std::move(value);
        return;
    }
    const bool known = std::any_of(about.fields.begin(), about.fields.end(),
                                   [key](const GpxField& field) { return field.key == key; });
    if (known || about.fields.size() >= limits_.most_fields) return;
    about.fields.push_back({std::string(key), std::move(value)});
}

void GpxBuilder::text(std::string_view piece) {
    if (error_ || !leaf_ || stack_.empty()) return;
    if (stack_.back() != Place::field && stack_.back() != Place::extension) return;
    if (text_cut_) return;
    text_ += piece;
    if (text_.size() <= limits_.most_text_bytes) return;
    text_.resize(limits_.most_text_bytes);
    while (!is_utf8(text_)) text_.pop_back();  // at most 3 bytes of a letter cut through
    text_cut_ = true;
    tally_.add("text_shortened", line_,
               fmt::format("a text is longer than {} bytes and was cut", limits_.most_text_bytes),
               "shorten it in the file");
}

Result<GpxFile> GpxBuilder::finish() {
    if (error_) return fail(*error_);
    if (points_ == 0 && first_bad_) {
        if (bad_points_ > 1) {
            first_bad_->what += fmt::format(
                ", and none of the other {} points of the file can be "
                "used",
                bad_points_ - 1);
        }
        return fail(*first_bad_);
    }
    if (out_.tracks.empty() && out_.waypoints.empty()) {
        tally_.add("gpx_empty", 1, "the file holds no track, route or waypoint",
                   "record or export it again");
    }
    check_gpx_tracks(out_.tracks, tally_);
    out_.problems = tally_.problems();
    return std::move(out_);
}

}  // namespace haylane
