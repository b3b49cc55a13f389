#pragma once
// Makes a GpxFile of the elements of a GPX file as a parser meets them. An element counts as GPX's
// own when its namespace prefix is the root's. Elements not known are passed over; what stands in
// <extensions>, or has a foreign prefix, gives fields to its track, route or waypoint.
// Once error() is set, further calls do nothing.

#include "core/base/error.h"
#include "gis/vector/gpx_checks.h"
#include "gis/vector/read_gpx.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace haylane {

using XmlAttributes = std::vector<std::pair<std::string_view, std::string_view>>;

class GpxBuilder {
  public:
    GpxBuilder(std::string file, const GpxLimits& limits)
        : file_(std::move(file)), limits_(limits), tally_(file_) {}

    void start(std::string_view name, const XmlAttributes& attributes, std::size_t line);
    void end(std::string_view name);
    void text(std::string_view piece);
    // A document type declaration for `root`.
    void document_type(std::string_view root);

    [[nodiscard]] const std::optional<Error>& error() const { return error_; }
    [[nodiscard]] bool root_seen() const { return root_seen_; }
    [[nodiscard]] std::size_t points() const { return points_; }  // kept so far
    [[nodiscard]] ProblemTally& tally() { return tally_; }
    // The file, checked and with its problems, or why there is none. Call once, last.
    [[nodiscard]] Result<GpxFile> finish();

  private:
    enum class Place { root, track, segment, point, waypoint, field, extension, other };

    void open_root(std::string_view name, const XmlAttributes& attributes, std::size_t line);
    [[nodiscard]] Place place_of(std::string_view local, bool own) const;
    [[nodiscard]] Place place_in_item(std::string_view local, bool own) const;
    void open(Place place, std::string_view local, const XmlAttributes& attributes,
              std::size_t line);
    void open_point(const XmlAttributes& attributes, std::size_t line);
    void close_leaf(Place place, std::string_view local);
    void close_point(Place place);
    void set_elevation(const std::string& value);
    void set_time(const std::string& value);
    void add_field(std::string_view key, std::string value);
    void count_item();
    [[nodiscard]] bool in(Place place) const;
    [[nodiscard]] GpxLabel& label();

    std::string file_;
    GpxLimits limits_;
    ProblemTally tally_;
    GpxFile out_;
    std::optional<Error> error_;
    std::optional<Error> first_bad_;
    std::size_t bad_points_ = 0;
    std::size_t points_ = 0;
    std::size_t items_ = 0;
    bool root_seen_ = false;
    std::string prefix_;  // the root's namespace prefix
    std::vector<Place> stack_;
    bool leaf_ = false;  // no element has started since the last one that did
    std::size_t line_ = 0;
    std::string text_;
    bool text_cut_ = false;
    GpxPoint point_;
    bool point_good_ = false;
    GpxWaypoint waypoint_;
};

}  // namespace haylane
