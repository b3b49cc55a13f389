#include "gis/book/make_book.h"

#include "gis/book/raw_rows.h"
#include "gis/book/read_folder.h"
#include "gis/book/write_book.h"
#include "gis/raster/read_terrain.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

constexpr double kFar_m = 50000.0;
constexpr double kTerrainMargin_m = 300.0;

std::vector<LonLat> pasture_corners(const FolderContents& folder) {
    std::vector<LonLat> corners;
    for (const BookTable& table : folder.tables) {
        if (table.role->name != "pastures") continue;
        for (const BookRow& row : table.rows) {
            for (const LonLatPolygon& polygon : row.shape.polygons) {
                for (const LonLatLine& ring : polygon.rings) {
                    corners.insert(corners.end(), ring.begin(), ring.end());
                }
            }
        }
    }
    return corners;
}

std::vector<LonLat> all_places(const LonLatShape& shape) {
    std::vector<LonLat> places = shape.points;
    for (const LonLatLine& line : shape.lines)
        places.insert(places.end(), line.begin(), line.end());
    for (const LonLatPolygon& polygon : shape.polygons) {
        for (const LonLatLine& ring : polygon.rings) {
            places.insert(places.end(), ring.begin(), ring.end());
        }
    }
    return places;
}

// Rows beyond 50 km east or west of the centre, where lengths drift from the ground.
void note_far_rows(const FolderContents& folder, const Frame& frame, Problems& problems) {
    for (const BookTable& table : folder.tables) {
        for (const BookRow& row : table.rows) {
            double far = 0.0;
            for (const LonLat place : all_places(row.shape)) {
                const Point p = frame.to_frame(place);
                far = std::max(far, std::isfinite(p.x) ? norm_m(p) : 1e9);
            }
            if (far <= kFar_m) continue;
            problems.push_back(
                {"far_from_centre", Severity::warning, row.read_from,
                 fmt::format("it lies {:.0f} km from the middle of the pastures, where "
                             "lengths and areas are less exact",
                             far / 1000.0),
                 "check its position; put far-off ground in a book of its own"});
        }
    }
}

// Terrain under the pastures and what lies between them.
void add_terrain(const FolderContents& folder, const std::vector<LonLat>& corners,
                 BookDraft& draft) {
    if (!folder.terrain) return;
    Box box;
    for (const LonLat corner : corners) box.add(draft.frame.to_frame(corner));
    Result<TerrainRead> terrain =
        read_terrain(*folder.terrain, draft.frame, box.grown_by(kTerrainMargin_m));
    if (!terrain) {
        const Error& error = terrain.error();
        draft.problems.push_back({error.code, Severity::error, folder.terrain->filename().string(),
                                  error.what + "; the terrain is not used", error.remedy});
        return;
    }
    draft.terrain = std::move(terrain->data);
    draft.problems.insert(draft.problems.end(), terrain->problems.begin(), terrain->problems.end());
    draft.crs_operations.push_back(
        fmt::format("{}: {}", folder.terrain->filename().string(), terrain->operation));
}

// "brindle-coulee" as people write it: Brindle Coulee. Letters beyond ASCII stay as they are.
std::string ranch_name(const fs::path& folder_path) {
    std::string name = fs::absolute(folder_path / "").parent_path().filename().string();
    bool starts_word = true;
    for (char& c : name) {
        if (c == '-' || c == '_') c = ' ';
        if (starts_word && c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
        starts_word = c == ' ';
    }
    return name;
}

std::optional<Error> in_the_way(const fs::path& book, bool force) {
    std::error_code code;
    if (force || !fs::exists(book, code)) return std::nullopt;
    return Error{"book_exists", fmt::format("{} is there already", book.filename().string()),
                 book.string(), "choose another name, or add --force to replace it"};
}

}  // namespace

Result<BookReport> make_book(const fs::path& folder_path, const fs::path& book, bool force) {
    if (auto error = in_the_way(book, force)) return fail(std::move(*error));
    Result<FolderContents> folder = read_folder(folder_path);
    if (!folder) return fail(folder.error());
    const std::vector<LonLat> corners = pasture_corners(*folder);
    if (corners.empty()) {
        Error error{"no_pasture_shape", "none of the pastures has a usable shape", "pastures",
                    "draw the pastures as areas"};
        for (const Problem& problem : folder->problems) {
            if (problem.severity == Severity::error) {
                error.what += ": " + problem.text;
                error.where = problem.where;
                break;
            }
        }
        return fail(error);
    }
    Result<Frame> frame = Frame::centred(frame_centre(corners));
    if (!frame) return fail(frame.error());
    BookDraft draft{ranch_name(folder_path),
                    *frame,
                    folder->tables,
                    std::nullopt,
                    std::move(folder->problems),
                    std::move(folder->crs_operations)};
    note_far_rows(*folder, *frame, draft.problems);
    add_terrain(*folder, corners, draft);
    const Result<void> written = write_book(book, draft);
    if (!written) return fail(written.error());
    return BookReport{draft.problems, fmt::format("{}", fmt::join(draft.crs_operations, "\n"))};
}

Result<void> make_empty_book(const fs::path& book, const std::string& ranch, LonLat centre,
                             bool force) {
    if (auto error = in_the_way(book, force)) return fail(std::move(*error));
    Result<Frame> frame = Frame::centred(centre);
    if (!frame) return fail(frame.error());
    return write_book(book, {ranch, *frame, {}, std::nullopt, {}, {}});
}

}  // namespace haylane
