#include "gis/tracks/kml_tracks.h"

#include "gis/gdal/gdal_session.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/file_scan.h"
#include "gis/vector/file_text.h"
#include "gis/vector/gpx_checks.h"
#include "gis/vector/gpx_time.h"

#include <fstream>
#include <memory>
#include <sstream>

#include <expat.h>
#include <fmt/format.h>

namespace haylane {

namespace {

constexpr std::size_t kDeepest = 64;
constexpr std::size_t kMostText = 8U << 20U;  // of one element: a LineString of 200,000 points

std::string_view local(std::string_view name) {
    const std::size_t colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

class Builder {
  public:
    explicit Builder(std::string file) : tally_(std::move(file)) {}

    void start(std::string_view element, std::size_t line) {
        const std::string_view name = local(element);
        text_.clear();
        too_deep_ = too_deep_ || ++depth_ > kDeepest;
        if (name == "Placemark") {
            name_.clear();
            ++placemark_;
            holds_points_ = false;
        }
        if (name == "Track" || name == "LineString") {
            track_ = RecordedTrack{name_, {}};
            times_.clear();
            in_track_ = true;
            line_ = line;
        }
    }
    void end(std::string_view element, std::size_t line) {
        const std::string_view name = local(element);
        --depth_;
        if (name == "name" && !in_track_) name_ = trimmed(text_).substr(0, 200);
        if (in_track_ && name == "when") add_time(line);
        if (in_track_ && (name == "coord" || name == "coordinates")) add_places(line);
        if (name == "Track" || name == "LineString") close_track();
        if (name == "Placemark" && !holds_points_)
            tally_.add(
                "not_a_line", line,
                fmt::format("placemark {} holds no track or line; it was left out",
                            name_.empty() ? std::to_string(placemark_) : "'" + shown(name_) + "'"),
                "give the recorded track");
        text_.clear();
    }
    void text(std::string_view piece) {
        if (text_.size() + piece.size() <= kMostText) text_ += piece;
    }
    [[nodiscard]] bool too_deep() const { return too_deep_; }
    RecordedFile out() {
        out_.problems = tally_.problems();
        return std::move(out_);
    }

  private:
    void add_time(std::size_t line) {
        const std::string value = trimmed(text_);
        const auto time = parse_gpx_time(value);
        times_.push_back(time ? std::optional<GpxTime>(time->at) : std::nullopt);
        if (!time)
            tally_.add("time_unreadable", line,
                       fmt::format("'{}' is no time; the point is used without it",
                                   shown(value.substr(0, 60))),
                       "write times as 2027-01-11T14:00:00Z");
    }
    // "lon lat height" of a Track, or a list of "lon,lat,height".
    void add_places(std::size_t line) {
        std::istringstream words(text_);
        const bool list = text_.find(',') != std::string::npos;
        std::string word;
        while (words >> word) {
            if (!list) {
                std::string second;
                words >> second;
                add_place(word, second, line);
                return;
            }
            const std::size_t comma = word.find(',');
            if (comma == std::string::npos) {
                add_place(word, "", line);
                continue;
            }
            const std::size_t next = word.find(',', comma + 1);
            add_place(word.substr(0, comma), word.substr(comma + 1, next - comma - 1), line);
        }
    }
    void add_place(const std::string& lon, const std::string& lat, std::size_t line) {
        const auto x = parse_number(lon, false);
        const auto y = parse_number(lat, false);
        GpxPoint point{.line = line};
        if (x && y) point.at = {*x, *y};
        usable_.push_back(x && y && on_earth(point.at) && has_fix(point.at));
        if (!usable_.back())
            tally_.add("coordinate_unreadable", line,
                       fmt::format("'{} {}' is no position in decimal degrees; the point was left "
                                   "out",
                                   shown(lon.substr(0, 40)), shown(lat.substr(0, 40))),
                       "write longitude and latitude as decimal degrees");
        track_.points.push_back(point);
    }
    void close_track() {
        if (!times_.empty() && times_.size() != track_.points.size()) {
            tally_.add("times_do_not_fit", line_,
                       fmt::format("the track has {} times for {} points; none was used",
                                   times_.size(), track_.points.size()),
                       "export the track again");
            times_.clear();
        }
        holds_points_ = holds_points_ || !track_.points.empty();
        RecordedTrack kept{track_.name, {}};
        for (std::size_t i = 0; i < track_.points.size(); ++i) {
            if (!usable_[i]) continue;
            if (!times_.empty()) track_.points[i].time = times_[i];
            kept.points.push_back(track_.points[i]);
        }
        out_.tracks.push_back(std::move(kept));
        usable_.clear();
        in_track_ = false;
    }

    ProblemTally tally_;
    RecordedFile out_;
    RecordedTrack track_;
    std::vector<std::optional<GpxTime>> times_;
    std::vector<bool> usable_;
    std::string name_;
    std::string text_;
    std::size_t depth_ = 0;
    std::size_t line_ = 0;
    std::size_t placemark_ = 0;
    bool holds_points_ = false;  // the placemark, in a track or line
    bool in_track_ = false;
    bool too_deep_ = false;
};

struct CloseParser {
    void operator()(XML_Parser parser) const { XML_ParserFree(parser); }
};

struct Session {
    std::unique_ptr<std::remove_pointer_t<XML_Parser>, CloseParser> parser;
    Builder builder;
    [[nodiscard]] std::size_t line() const { return XML_GetCurrentLineNumber(parser.get()); }
};

void on_start(void* user, const XML_Char* name, const XML_Char** /*attributes*/) {
    auto& session = *static_cast<Session*>(user);
    session.builder.start(name, session.line());
    if (session.builder.too_deep()) XML_StopParser(session.parser.get(), XML_FALSE);
}

void on_end(void* user, const XML_Char* name) {
    auto& session = *static_cast<Session*>(user);
    session.builder.end(name, session.line());
}

void on_text(void* user, const XML_Char* text, int size) {
    static_cast<Session*>(user)->builder.text({text, static_cast<std::size_t>(size)});
}

}  // namespace

Result<RecordedFile> read_kml_tracks(const std::filesystem::path& file) {
    const Result<Problems> scan = scan_text_file(file, TextForm::kml);
    if (!scan) return fail(scan.error());
    const std::string name = file.filename().string();
    Session session{decltype(Session::parser)(XML_ParserCreate(nullptr)), Builder(name)};
    XML_SetUserData(session.parser.get(), &session);
    XML_SetElementHandler(session.parser.get(), on_start, on_end);
    XML_SetCharacterDataHandler(session.parser.get(), on_text);
    std::ifstream in(file, std::ios::binary);
    std::vector<char> piece(64U << 10U);
    bool last = false;
    while (!last) {
        in.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        last = !in;
        const auto status = XML_Parse(session.parser.get(), piece.data(),
                                      static_cast<int>(in.gcount()), last ? 1 : 0);
        if (status == XML_STATUS_OK) continue;
        const std::string where = fmt::format("{}, line {}", name, session.line());
        return fail({"not_kml",
                     session.builder.too_deep()
                         ? fmt::format("{}: too many elements inside each other", where)
                         : fmt::format("{}: the file is not well-formed XML ({})", where,
                                       XML_ErrorString(XML_GetErrorCode(session.parser.get()))),
                     where, "export it again"});
    }
    RecordedFile out = session.builder.out();
    out.problems.insert(out.problems.begin(), scan->begin(), scan->end());
    return out;
}

}  // namespace haylane
