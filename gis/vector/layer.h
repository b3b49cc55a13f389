#pragma once
// One source of rows as read from a file: column names and cells as the file has them (text),
// shapes in WGS 84 degrees. Meaning comes later (gis/book).

#include "core/base/problem.h"
#include "gis/crs/frame.h"

#include <string>
#include <vector>

namespace haylane {

using LonLatLine = std::vector<LonLat>;

// Rings are not closed by repetition; the first is the outer one.
struct LonLatPolygon {
    std::vector<LonLatLine> rings;
};

// Parts by kind; a plain feature fills one kind, a collection may fill several.
struct LonLatShape {
    std::vector<LonLat> points;
    std::vector<LonLatLine> lines;
    std::vector<LonLatPolygon> polygons;
    [[nodiscard]] bool empty() const { return points.empty() && lines.empty() && polygons.empty(); }
};

struct SourceRow {
    std::vector<std::string> cells;  // by column; empty = blank
    LonLatShape shape;
    std::string where;  // "hay.csv, line 3" or "pastures.gpkg, layer pastures, feature 2"
};

struct SourceLayer {
    std::string name;  // file stem, or the layer's name in a GeoPackage
    std::string file;  // file name without folder
    std::vector<std::string> columns;
    std::vector<SourceRow> rows;
    bool decimal_comma = false;  // cells may hold decimal commas
    bool spatial = false;
    bool from_track = false;  // GPX: lines are tracks driven, not drawn
    Problems problems;
    std::vector<std::string> crs_operations;
};

}  // namespace haylane
