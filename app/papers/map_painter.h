#pragma once
// Paints the ranch as a paper map on any painter: hillshade, fences in ink, trails by surface,
// gates, yards, water, shelter, off-limits ground with its setbacks hatched, feed lines numbered by
// day, scale bar and north arrow. World in the ranch frame (metres, y north), page in painter units
// (y down); everything stays inside the page rectangle. Tones fall evenly with meaning, so that the
// map reads the same in black and white. Cost: linear in vertices, plus one picture of the terrain.

#include "app/papers/sheet.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <optional>
#include <string>
#include <vector>

#include <QImage>
#include <QPainter>
#include <QRectF>

namespace haylane {

// The world box, as large as fits, in the middle of the page rectangle.
struct MapView {
    Box world;
    QRectF page;
    [[nodiscard]] double units_per_m() const;  // 0 for an empty world
    [[nodiscard]] QPointF to_page(Point p) const;
    [[nodiscard]] Point to_world(QPointF p) const;
};

// A feed line to show. Herds differ by letter and dash, so that no colour is needed.
struct MapLine {
    Polyline path;
    int herd = 0;  // 0 = A: solid, 1 = B: dashed, 2 = C: dotted, ...
    int day = 1;   // 1 = the plan's first day
    bool firm = true;
    std::string id;
    std::vector<Point> rings = {};  // bales are set here; the path is only the row they stand in
};

// Something painted under everything but the shade of the hills.
struct MapPicture {
    QImage image;  // row 0 is north
    Box at;        // in the ranch frame
};

struct MapContent {
    std::vector<MapPicture> pictures;
    std::vector<Polyline> outlines;  // round ground to be marked: over a limit
    std::vector<MapLine> lines;
    std::vector<Polyline> ways;            // driven ways to show
    bool about_ways = false;               // they are what the map is about
    std::vector<std::string> first_names;  // places to name first: gates, yards, landmarks
};

struct MapStyle {
    int text_pt = 12;     // height of all text, painter units
    double ink = 1.0;     // factor on all pen widths
    bool metric = false;  // scale bar
    bool north_and_scale = true;
};

// What was written on the map.
struct MapRecord {
    std::vector<PlacedText> texts;
    std::vector<QString> left_out;  // names that found no place
};

// Lit from the northwest; pale, so that ink stays readable on it. `row 0` of the image is north.
[[nodiscard]] QImage hillshade(const TerrainData& terrain);

// `shade` may be null (no terrain, or none wanted).
[[nodiscard]] MapRecord paint_map(QPainter& painter, const MapView& view, const Ranch& ranch,
                                  const MapContent& content, const MapStyle& style,
                                  const QImage* shade);

// "A", "B", ... "Z", then "H27", ...
[[nodiscard]] QString herd_letter(int herd);
// A line or row of a feeding; `day` as above.
[[nodiscard]] MapLine map_line(const PlannedFeeding& feeding, const PlannedLine& line, int day);
// The plan's lines, the ways of its firm days, and the names its texts use.
[[nodiscard]] MapContent map_content(const Plan& plan, const Ranch& ranch);
// The box around what the content shows, yards included, with a margin; all pastures if nothing.
[[nodiscard]] Box box_to_show(const MapContent& content, const Ranch& ranch);
// The dash of a herd as a short sample, centred on a height.
void paint_line_sample(QPainter& painter, QPointF left, double length, int herd, bool firm);
// A ring as on the map, in the middle of such a sample.
void paint_ring_sample(QPainter& painter, QPointF left, double length);

}  // namespace haylane
