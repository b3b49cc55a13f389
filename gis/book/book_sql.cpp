// The long forms COMMIT TRANSACTION and ROLLBACK TRANSACTION are on purpose: GDAL 3.6 keeps the
// bare words COMMIT and ROLLBACK for its own counter of transactions, which BEGIN IMMEDIATE does
// not move, and then drops them without a message.
#include "gis/book/book_sql.h"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <random>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

template <class T>
void append_bytes(T value, std::string& out) {
    char bytes[sizeof(T)];
    std::memcpy(bytes, &value, sizeof(T));
    out.append(bytes, sizeof(T));
}

// Layout: GeoPackage 1.3 (OGC 12-128) section 2.1.3, little-endian, no envelope; then WKB (OGC
// 06-103r4, section 8.2).
constexpr std::uint32_t kPoint = 1;
constexpr std::uint32_t kLineString = 2;
constexpr std::uint32_t kPolygon = 3;
constexpr std::uint32_t kMultiPoint = 4;
constexpr std::uint32_t kMultiLineString = 5;
constexpr std::uint32_t kMultiPolygon = 6;

class GeometryBlob {
  public:
    GeometryBlob() {
        bytes_ += '\0';
        bytes_ += '\x01';
        append_bytes<std::int32_t>(4326, bytes_);
    }
    void begin(std::uint32_t type, std::size_t parts) {
        begin_single(type);
        count(parts);
    }
    void begin_single(std::uint32_t type) {  // one without parts: a point
        bytes_ += '\x01';
        append_bytes<std::uint32_t>(type, bytes_);
    }
    void count(std::size_t parts) {
        append_bytes<std::uint32_t>(static_cast<std::uint32_t>(parts), bytes_);
    }
    void add(const LonLatLine& line) {
        for (const LonLat place : line) {
            append_bytes(place.lon_deg, bytes_);
            append_bytes(place.lat_deg, bytes_);
        }
    }
    [[nodiscard]] std::string sql() const {
        std::string hex = "X'";
        for (const char c : bytes_) hex += fmt::format("{:02X}", static_cast<std::uint8_t>(c));
        return hex + "'";
    }

  private:
    std::string bytes_ = "GP";
};

}  // namespace

Result<void> run_sql(GDALDataset& book, const std::string& sql) {
    GdalMessages messages;
    OGRLayer* answer = book.ExecuteSQL(sql.c_str(), nullptr, nullptr);
    if (answer != nullptr) {
        // Statements that answer (PRAGMA) are read to their end, so that they have run.
        while (OGRFeatureUniquePtr{answer->GetNextFeature()}) {
        }
        book.ReleaseResultSet(answer);
    }
    if (messages.failed()) return fail(book_error(messages.reason()));
    return {};
}

Result<std::string> ask_sql(GDALDataset& book, const std::string& sql) {
    auto rows = ask_sql_list(book, sql);
    if (!rows) return fail(rows.error());
    return rows->empty() ? std::string() : std::move(rows->front());
}

Result<std::vector<std::string>> ask_sql_list(GDALDataset& book, const std::string& sql) {
    GdalMessages messages;
    std::vector<std::string> list;
    OGRLayer* answer = book.ExecuteSQL(sql.c_str(), nullptr, nullptr);
    if (answer != nullptr) {
        while (const OGRFeatureUniquePtr row{answer->GetNextFeature()})
            list.emplace_back(row->GetFieldCount() > 0 ? row->GetFieldAsString(0) : "");
        book.ReleaseResultSet(answer);
    }
    if (messages.failed()) return fail(book_error(messages.reason()));
    return list;
}

Result<void> add_columns(GDALDataset& book, const std::string& table,
                         const std::vector<std::string>& columns) {
    for (const std::string& column : columns) {
        const auto there = ask_sql(
            book, fmt::format("SELECT 1 FROM pragma_table_info({}) WHERE name = {}",
                              sql_text(table), sql_text(column.substr(0, column.find(' ')))));
        if (!there) return fail(there.error());
        if (!there->empty()) continue;
        const Result<void> done =
            run_sql(book, fmt::format("ALTER TABLE {} ADD COLUMN {}", table, column));
        if (!done) return done;
    }
    return {};
}

Result<std::string> book_note(GDALDataset& book, const std::string& key) {
    return ask_sql(book, "SELECT value FROM haylane_book WHERE key = " + sql_text(key));
}

Result<Frame> book_frame(GDALDataset& book) {
    const Result<std::string> wkt = book_note(book, "frame_wkt");
    if (!wkt) return fail(wkt.error());
    return Frame::from_wkt(*wkt);
}

Result<void> in_transaction(GDALDataset& book, const std::function<Result<void>()>& work) {
    Result<void> done = run_sql(book, "BEGIN IMMEDIATE");
    if (!done) return done;
    done = work();
    if (done) done = run_sql(book, "COMMIT TRANSACTION");
    if (!done) {
        // If even this fails, the journal undoes the change when the book is next opened.
        [[maybe_unused]] const Result<void> undone = run_sql(book, "ROLLBACK TRANSACTION");
    }
    return done;
}

std::string sql_text(const std::string& text) {
    std::string out = "'";
    for (const char c : text) {
        if (c == '\0') continue;
        out += c;
        if (c == '\'') out += '\'';
    }
    return out + "'";
}

std::string sql_lines(const std::vector<LonLatLine>& lines) {
    const auto drawn = std::count_if(lines.begin(), lines.end(),
                                     [](const LonLatLine& line) { return line.size() > 1; });
    if (drawn == 0) return "NULL";
    GeometryBlob blob;
    blob.begin(kMultiLineString, static_cast<std::size_t>(drawn));
    for (const LonLatLine& line : lines) {
        if (line.size() < 2) continue;
        blob.begin(kLineString, line.size());
        blob.add(line);
    }
    return blob.sql();
}

std::string sql_points(const LonLatLine& places) {
    if (places.empty()) return "NULL";
    GeometryBlob blob;
    blob.begin(kMultiPoint, places.size());
    for (const LonLat place : places) {
        blob.begin_single(kPoint);
        blob.add({place});
    }
    return blob.sql();
}

std::string sql_point(LonLat place) {
    GeometryBlob blob;
    blob.begin_single(kPoint);
    blob.add({place});
    return blob.sql();
}

std::string sql_areas(const std::vector<LonLatPolygon>& areas) {
    if (areas.empty()) return "NULL";
    GeometryBlob blob;
    blob.begin(kMultiPolygon, areas.size());
    for (const LonLatPolygon& area : areas) {
        blob.begin(kPolygon, area.rings.size());
        for (LonLatLine ring : area.rings) {
            if (!ring.empty()) ring.push_back(ring.front());
            blob.count(ring.size());
            blob.add(ring);
        }
    }
    return blob.sql();
}

std::string sql_name(const std::string& name) {
    std::string quoted = "\"";
    for (const char c : name) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + "\"";
}

std::string sql_lines(const MultiPolyline& lines, const Frame& frame) {
    std::vector<LonLatLine> all;
    for (const Polyline& line : lines) all.push_back(in_degrees(line, frame));
    return sql_lines(all);
}

std::string sql_areas(const MultiPolygon& areas, const Frame& frame) {
    std::vector<LonLatPolygon> all;
    for (const Polygon& part : areas) {
        LonLatPolygon area{{in_degrees(part.outer, frame)}};
        for (const Ring& hole : part.holes) area.rings.push_back(in_degrees(hole, frame));
        all.push_back(std::move(area));
    }
    return sql_areas(all);
}

LonLatLine in_degrees(const std::vector<Point>& points, const Frame& frame) {
    LonLatLine places;
    for (const Point p : points) places.push_back(frame.to_lonlat(p));
    return places;
}

std::string new_uuid() {
    std::random_device random;
    std::uint32_t words[4] = {random(), random(), random(), random()};
    words[1] = (words[1] & 0xFFFF0FFFU) | 0x00004000U;
    words[2] = (words[2] & 0x3FFFFFFFU) | 0x80000000U;
    return fmt::format("{:08x}-{:04x}-{:04x}-{:04x}-{:04x}{:08x}", words[0], words[1] >> 16U,
                       words[1] & 0xFFFFU, words[2] >> 16U, words[2] & 0xFFFFU, words[3]);
}

}  // namespace haylane
