#pragma once
// Small tools for the book's own tables: one checked way to run SQL, quoting, fresh row names, the
// book's notes about itself.

#include "core/base/result.h"
#include "core/geometry/polygon.h"
#include "gis/book/open_book.h"
#include "gis/crs/frame.h"
#include "gis/gdal/gdal_session.h"
#include "gis/vector/layer.h"

#include <functional>
#include <string>
#include <vector>

namespace haylane {

// Runs one statement; any message of failure is the error that book_error makes of it.
[[nodiscard]] Result<void> run_sql(GDALDataset& book, const std::string& sql);
// Runs `work` between BEGIN IMMEDIATE and COMMIT; rolls back when it or the commit fails.
[[nodiscard]] Result<void> in_transaction(GDALDataset& book,
                                          const std::function<Result<void>()>& work);
// The first column of the first row as text; empty when there is no row.
[[nodiscard]] Result<std::string> ask_sql(GDALDataset& book, const std::string& sql);
// The first column of every row as text.
[[nodiscard]] Result<std::vector<std::string>> ask_sql_list(GDALDataset& book,
                                                            const std::string& sql);

// Gives a table the columns that a book of an earlier form lacks: "name TYPE".
[[nodiscard]] Result<void> add_columns(GDALDataset& book, const std::string& table,
                                       const std::vector<std::string>& columns);

// What table haylane_book says under a key; empty when it says nothing.
[[nodiscard]] Result<std::string> book_note(GDALDataset& book, const std::string& key);
// The frame kept with the book. Errors: frame_unreadable, book_not_written.
[[nodiscard]] Result<Frame> book_frame(GDALDataset& book);

[[nodiscard]] std::string sql_text(const std::string& text);  // 'it''s'
[[nodiscard]] std::string sql_name(const std::string& name);  // "a ""quoted"" name"
// A GeoPackage MultiLineString (EPSG:4326) as X'...'; NULL when no line has two points.
[[nodiscard]] std::string sql_lines(const std::vector<LonLatLine>& lines);
// The same of a MultiPoint; NULL when there is none.
[[nodiscard]] std::string sql_points(const LonLatLine& places);
// The same of one Point.
[[nodiscard]] std::string sql_point(LonLat place);
// The same of a MultiPolygon; NULL when there is none.
[[nodiscard]] std::string sql_areas(const std::vector<LonLatPolygon>& areas);
// Lines and areas of the ranch frame.
[[nodiscard]] std::string sql_lines(const MultiPolyline& lines, const Frame& frame);
[[nodiscard]] std::string sql_areas(const MultiPolygon& areas, const Frame& frame);
[[nodiscard]] LonLatLine in_degrees(const std::vector<Point>& points, const Frame& frame);
// A random UUID, version 4 (RFC 9562).
[[nodiscard]] std::string new_uuid();

}  // namespace haylane
