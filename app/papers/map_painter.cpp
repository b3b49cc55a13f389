// Painter's order: ground, shade, off-limits ground, trails, fences, ways, lines, signs, names.
// Each layer is one function. Setbacks are page-space strokes as wide as twice the setback: exact
// enough for a picture, and no overlay is needed.

#include "app/papers/map_painter.h"

#include "app/papers/map_labels.h"
#include "app/papers/words.h"
#include "core/base/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <QPainterPath>
#include <QPainterPathStroker>
#include <QTextLayout>

namespace haylane {
namespace {

const QColor kInk(0x1c, 0x19, 0x15);
const QColor kPaper(0xfb, 0xf6, 0xea);
const QColor kHay(0xd9, 0xa4, 0x2b);
const QColor kWater(0x8f, 0xa9, 0xb4);
const QColor kTrail(0x6b, 0x5d, 0x4a);
const QColor kHatch(0x7d, 0x74, 0x66);
const QColor kWay(0x45, 0x3a, 0x2c);

struct Canvas {
    QPainter& painter;
    const MapView& view;
    const MapStyle& style;

    [[nodiscard]] QPen pen(const QColor& color, double width) const {
        QPen made(color, width * style.ink);
        made.setCapStyle(Qt::FlatCap);
        made.setJoinStyle(Qt::RoundJoin);
        return made;
    }
    [[nodiscard]] QPainterPath path(const Polyline& line) const {
        QPainterPath made;
        for (std::size_t i = 0; i < line.size(); ++i) {
            const QPointF at = view.to_page(line[i]);
            i == 0 ? made.moveTo(at) : made.lineTo(at);
        }
        return made;
    }
    [[nodiscard]] QPainterPath path(const MultiPolyline& lines) const {
        QPainterPath made;
        for (const Polyline& line : lines) made.addPath(path(line));
        return made;
    }
    [[nodiscard]] QPainterPath path(const MultiPolygon& shape) const {
        QPainterPath made = path(boundary_lines(shape));
        made.setFillRule(Qt::OddEvenFill);
        return made;
    }
};

void paint_shade(const Canvas& canvas, const Ranch& ranch, const QImage* shade) {
    if (shade == nullptr || shade->isNull() || !ranch.terrain) return;
    const Grid& grid = ranch.terrain->elevation_m.grid;
    const QPointF northwest = canvas.view.to_page({grid.x0, grid.y0 + grid.ny * grid.cell_m});
    const QPointF southeast = canvas.view.to_page({grid.x0 + grid.nx * grid.cell_m, grid.y0});
    canvas.painter.drawImage(QRectF(northwest, southeast), *shade);
}

void paint_soft(const Canvas& canvas, const Ranch& ranch) {
    canvas.painter.setPen(Qt::NoPen);
    canvas.painter.setBrush(QColor(0xb9, 0xc2, 0xb4, 0x60));
    for (const SoftGround& soft : ranch.soft) canvas.painter.drawPath(canvas.path(soft.area));
    canvas.painter.setBrush(Qt::NoBrush);
}

// The item itself, and as far as its setback reaches.
QPainterPath setback_path(const Canvas& canvas, const OffLimits& item) {
    const double reach = item.setback_m * canvas.view.units_per_m();
    QPainterPath own = canvas.path(item.area);
    own.addPath(canvas.path(item.lines));
    for (const Point& p : item.points) {
        own.addEllipse(canvas.view.to_page(p), reach, reach);
    }
    if (reach < 0.2) return canvas.path(item.area);
    QPainterPathStroker stroker;
    stroker.setWidth(2.0 * reach);
    stroker.setJoinStyle(Qt::RoundJoin);
    stroker.setCapStyle(Qt::RoundCap);
    QPainterPath all = canvas.path(item.area);
    if (!item.lines.empty() || !item.area.empty()) {
        QPainterPath edges = canvas.path(item.area);
        edges.addPath(canvas.path(item.lines));
        all = all.united(stroker.createStroke(edges));
    }
    for (const Point& p : item.points) {
        QPainterPath disc;
        disc.addEllipse(canvas.view.to_page(p), reach, reach);
        all = all.united(disc);
    }
    return all;
}

// Slanted lines rather than a brush pattern: the same on paper and screen.
void hatch(const Canvas& canvas, const QPainterPath& area) {
    const QRectF box = area.boundingRect().intersected(canvas.view.page);
    if (box.isEmpty()) return;
    canvas.painter.save();
    canvas.painter.setClipPath(area, Qt::IntersectClip);
    canvas.painter.setPen(canvas.pen(kHatch, 0.4));
    const double step = 3.5 * canvas.style.ink;
    const double first = std::floor((box.left() - box.height()) / step) * step;
    for (double x = first; x < box.right(); x += step) {
        canvas.painter.drawLine(QPointF(x, box.bottom()), QPointF(x + box.height(), box.top()));
    }
    canvas.painter.restore();
}

void paint_off_limits(const Canvas& canvas, const Ranch& ranch) {
    for (const OffLimits& item : ranch.off_limits) hatch(canvas, setback_path(canvas, item));
    for (const OffLimits& item : ranch.off_limits) {
        const bool wet = item.kind == OffLimitsKind::water || item.kind == OffLimitsKind::wetland;
        canvas.painter.setPen(canvas.pen(wet ? kWater.darker(150) : kInk, 0.7));
        canvas.painter.setBrush(wet ? QBrush(kWater) : QBrush(kHatch));
        canvas.painter.drawPath(canvas.path(item.area));
        canvas.painter.setBrush(Qt::NoBrush);
        canvas.painter.setPen(canvas.pen(wet ? kWater.darker(140) : kHatch, wet ? 1.5 : 0.8));
        canvas.painter.drawPath(canvas.path(item.lines));
        for (const Point& p : item.points) {
            canvas.painter.setBrush(wet ? kWater : kPaper);
            canvas.painter.setPen(canvas.pen(kInk, 0.7));
            const QPointF at = canvas.view.to_page(p);
            canvas.painter.drawRect(QRectF(at.x() - 2.0, at.y() - 2.0, 4.0, 4.0));
        }
    }
    canvas.painter.setBrush(Qt::NoBrush);
}

void paint_trail(const Canvas& canvas, const Trail& trail) {
    const QPainterPath path = canvas.path(trail.path);
    QPen pen = canvas.pen(kTrail, 1.3);
    switch (trail.surface) {
        case Surface::paved:
            canvas.painter.strokePath(path, canvas.pen(kTrail, 3.0));
            canvas.painter.strokePath(path, canvas.pen(kPaper, 1.6));
            return;
        case Surface::gravel:
            break;
        case Surface::dirt:
            pen.setDashPattern({5.0, 2.0});
            break;
        case Surface::two_track:
            pen.setWidthF(1.0 * canvas.style.ink);
            pen.setDashPattern({2.0, 2.5});
            break;
    }
    canvas.painter.strokePath(path, pen);
}

void paint_fences(const Canvas& canvas, const Ranch& ranch) {
    for (const Pasture& pasture : ranch.pastures) {
        canvas.painter.strokePath(canvas.path(pasture.shape), canvas.pen(kInk, 0.9));
    }
}

void paint_shelter(const Canvas& canvas, const Ranch& ranch) {
    for (const Shelter& shelter : ranch.shelter) {
        canvas.painter.setPen(canvas.pen(kTrail, 0.5));
        canvas.painter.setBrush(QColor(0x9a, 0xa0, 0x80, 0x90));
        canvas.painter.drawPath(canvas.path(shelter.area));
        canvas.painter.setBrush(Qt::NoBrush);
        canvas.painter.setPen(canvas.pen(QColor(0x5d, 0x63, 0x47), 2.2));
        canvas.painter.drawPath(canvas.path(shelter.lines));
        for (const Point& p : shelter.points) {
            canvas.painter.drawEllipse(canvas.view.to_page(p), 2.0, 2.0);
        }
    }
}

void paint_ways(const Canvas& canvas, const std::vector<Polyline>& ways) {
    for (const Polyline& way : ways) {
        QPen pen = canvas.pen(kWay, 1.9);
        pen.setDashPattern({0.8, 1.1});
        canvas.painter.strokePath(canvas.path(way), pen);
    }
}

std::vector<double> dash_of(int herd) {
    static constexpr std::array<std::array<double, 4>, 5> kDashes{{{0.0, 0.0, 0.0, 0.0},
                                                                   {2.2, 1.0, 2.2, 1.0},
                                                                   {0.8, 0.8, 0.8, 0.8},
                                                                   {3.0, 0.8, 0.8, 0.8},
                                                                   {1.5, 2.0, 1.5, 2.0}}};
    const auto& dash = kDashes[static_cast<std::size_t>(herd) % kDashes.size()];
    if (dash[0] == 0.0) return {};
    return {dash.begin(), dash.end()};
}

// Ink with hay inside; a line in pencil is thin.
void stroke_feed_line(QPainter& painter, const QPainterPath& path, int herd, bool firm,
                      double ink) {
    const double width = (firm ? 4.2 : 2.6) * ink;
    QPen outer(kInk, width, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin);
    QPen inner(firm ? kHay : kHay.lighter(125), width - 1.5 * ink, Qt::SolidLine, Qt::FlatCap,
               Qt::RoundJoin);
    const std::vector<double> dash = dash_of(herd);
    painter.strokePath(path, outer);
    painter.strokePath(path, inner);
    if (dash.empty()) return;
    QPen ticks(kInk, width, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin);
    ticks.setDashPattern(QList<qreal>(dash.begin(), dash.end()));
    painter.strokePath(path, ticks);
}

void paint_lines(const Canvas& canvas, const std::vector<MapLine>& lines) {
    for (const bool firm : {false, true}) {
        for (const MapLine& line : lines) {
            if (line.firm != firm) continue;
            stroke_feed_line(canvas.painter, canvas.path(line.path), line.herd, firm,
                             canvas.style.ink);
        }
    }
}

void paint_signs(const Canvas& canvas, const Ranch& ranch) {
    QPainter& painter = canvas.painter;
    painter.setPen(canvas.pen(kInk, 0.9));
    for (const Gate& gate : ranch.gates) {
        const QPointF at = canvas.view.to_page(gate.at);
        painter.setBrush(kPaper);
        painter.drawEllipse(at, 2.6, 2.6);
        painter.drawLine(at + QPointF(-2.6, 2.6), at + QPointF(2.6, -2.6));
    }
    for (const WaterPoint& water : ranch.water) {
        painter.setBrush(kWater);
        painter.drawEllipse(canvas.view.to_page(water.at), 2.8, 2.8);
    }
    for (const Yard& yard : ranch.yards) {
        const QPointF at = canvas.view.to_page(yard.at);
        painter.setBrush(kInk);
        painter.drawPolygon(
            QPolygonF({at + QPointF(-4.5, 3.5), at + QPointF(4.5, 3.5), at + QPointF(4.5, -1.0),
                       at + QPointF(0.0, -5.0), at + QPointF(-4.5, -1.0)}));
    }
    painter.setBrush(Qt::NoBrush);
}

// Text in one line with a paper halo under it.
void paint_text(QPainter& painter, const QString& text, const QFont& font, QPointF top_left,
                double size) {
    const QPointF baseline = top_left + QPointF(0.0, 0.93 * size);
    QPainterPath shape;
    shape.addText(baseline, font, text);
    painter.strokePath(shape, QPen(kPaper, 2.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    QTextLayout layout(text, font);
    QTextOption option;
    option.setUseDesignMetrics(true);
    layout.setTextOption(option);
    layout.beginLayout();
    QTextLine line = layout.createLine();
    line.setLineWidth(1.0e6);
    line.setPosition({0.0, -line.ascent()});
    layout.endLayout();
    painter.setPen(kInk);
    layout.draw(&painter, baseline);
}

// "1–3, 5" from days in order.
QString day_list(const std::vector<int>& days) {
    QString text;
    for (std::size_t i = 0; i < days.size();) {
        std::size_t last = i;
        while (last + 1 < days.size() && days[last + 1] == days[last] + 1) ++last;
        if (!text.isEmpty()) text += ",";
        text += QString::number(days[i]);
        if (last > i) text += QStringLiteral("–") + QString::number(days[last]);
        i = last + 1;
    }
    return text;
}

// Lines of one herd too near each other on the page for a label each.
struct LineGroup {
    int herd = 0;
    std::vector<int> days;
    QPointF anchor;
    int members = 0;
};

void add_to(LineGroup& group, int day, QPointF at) {
    group.anchor = (group.anchor * group.members + at) / (group.members + 1);
    ++group.members;
    const auto place = std::lower_bound(group.days.begin(), group.days.end(), day);
    if (place == group.days.end() || *place != day) group.days.insert(place, day);
}

std::vector<LineGroup> group_lines(const Canvas& canvas, const std::vector<MapLine>& lines) {
    const double near = 1.3 * canvas.style.text_pt;
    std::vector<LineGroup> groups;
    for (const MapLine& line : lines) {
        if (line.path.empty()) continue;
        const QPointF at = canvas.view.to_page(point_at(line.path, length_m(line.path) / 2.0));
        const auto found = std::find_if(groups.begin(), groups.end(), [&](const LineGroup& group) {
            const QPointF away = group.anchor - at;
            return group.herd == line.herd && std::hypot(away.x(), away.y()) < near;
        });
        LineGroup& group = found == groups.end() ? groups.emplace_back() : *found;
        group.herd = line.herd;
        add_to(group, line.day, at);
    }
    return groups;
}

class Names {
  public:
    Names(const Canvas& canvas, const MapContent& content) : canvas_(canvas), content_(content) {}

    void add(const QString& text, QPointF anchor, int rank, bool centred, bool must) {
        if (text.isEmpty() || !canvas_.view.page.contains(anchor)) return;
        const QSizeF size(width_of(text, canvas_.style.text_pt, must),
                          line_pitch(canvas_.style.text_pt));
        wishes_.push_back({text, anchor, size, rank, centred, must, must});
    }
    // Named places: those that the plan speaks of come first.
    void add_place(const std::string& name, Point at, int rank) {
        const bool first = std::find(content_.first_names.begin(), content_.first_names.end(),
                                     name) != content_.first_names.end();
        add(QString::fromStdString(name), canvas_.view.to_page(at), first ? 2 : rank, false, false);
    }
    [[nodiscard]] const std::vector<LabelWish>& wishes() const { return wishes_; }

  private:
    const Canvas& canvas_;
    const MapContent& content_;
    std::vector<LabelWish> wishes_;
};

void add_all_names(Names& names, const Canvas& canvas, const Ranch& ranch,
                   const MapContent& content) {
    for (const LineGroup& group : group_lines(canvas, content.lines)) {
        names.add(herd_letter(group.herd) + day_list(group.days), group.anchor, 0, false, true);
    }
    for (const Yard& yard : ranch.yards) names.add_place(yard.name, yard.at, 1);
    for (const Gate& gate : ranch.gates) names.add_place(gate.name, gate.at, 5);
    for (const WaterPoint& water : ranch.water) names.add_place(water.name, water.at, 6);
    for (const Pasture& pasture : ranch.pastures) {
        if (area_m2(pasture.shape) <= 0.0) continue;
        names.add(QString::fromStdString(pasture.name),
                  canvas.view.to_page(label_point(pasture.shape)), 3, true, false);
    }
}

// Signs and lines that names keep off if they can.
std::vector<QRectF> sign_boxes(const Canvas& canvas, const Ranch& ranch,
                               const MapContent& content) {
    std::vector<QRectF> boxes;
    const auto add = [&](Point p, double half) {
        const QPointF at = canvas.view.to_page(p);
        boxes.emplace_back(at.x() - half, at.y() - half, 2.0 * half, 2.0 * half);
    };
    for (const Gate& gate : ranch.gates) add(gate.at, 3.0);
    for (const WaterPoint& water : ranch.water) add(water.at, 3.0);
    for (const Yard& yard : ranch.yards) add(yard.at, 5.0);
    for (const MapLine& line : content.lines) {
        const double step = 4.0 / std::max(1.0e-6, canvas.view.units_per_m());
        for (const Point& p : resampled(line.path, step)) add(p, 2.0);
    }
    return boxes;
}

void paint_names(const Canvas& canvas, const Ranch& ranch, const MapContent& content,
                 const std::vector<QRectF>& taken, MapRecord& record) {
    Names names(canvas, content);
    add_all_names(names, canvas, ranch, content);
    const LabelLayout layout =
        place_labels(names.wishes(), canvas.view.page.adjusted(2.0, 2.0, -2.0, -2.0), taken,
                     sign_boxes(canvas, ranch, content));
    const int size = canvas.style.text_pt;
    for (const PlacedLabel& label : layout.placed) {
        if (!label.leader) continue;
        canvas.painter.setPen(canvas.pen(kInk, 0.6));
        canvas.painter.drawLine(label.wish.anchor, label.box.center());
    }
    for (const PlacedLabel& label : layout.placed) {
        paint_text(canvas.painter, label.wish.text, paper_font(size, label.wish.bold),
                   label.box.topLeft(), size);
        record.texts.push_back({1, label.wish.text, label.box, static_cast<double>(size)});
    }
    for (const LabelWish& wish : layout.left_out) record.left_out.push_back(wish.text);
}

// The longest round length that fits.
double round_length_m(double longest_m, double unit_m) {
    double best = 0.0;
    for (double power = 0.01; power < 1.0e6; power *= 10.0) {
        for (const double step : {1.0, 2.0, 5.0}) {
            if (step * power * unit_m <= longest_m) best = step * power * unit_m;
        }
    }
    return best;
}

struct ScaleBar {
    double length_m = 0.0;
    QString text;
};

ScaleBar scale_bar(double longest_m, bool metric) {
    if (metric) {
        const double length = round_length_m(longest_m, 1.0);
        const QString text = length >= 1000.0 ? QStringLiteral("%1 km").arg(length / 1000.0)
                                              : QStringLiteral("%1 m").arg(length);
        return {length, text};
    }
    const double mile = units::kMetersPerMile;
    for (const auto& [share, text] : {std::pair{5.0, "5 miles"},
                                      {2.0, "2 miles"},
                                      {1.0, "1 mile"},
                                      {0.5, "½ mile"},
                                      {0.25, "¼ mile"}}) {
        if (share * mile <= longest_m) return {share * mile, QString::fromUtf8(text)};
    }
    const double length = round_length_m(longest_m, units::kMetersPerFoot);
    return {length, QStringLiteral("%1 ft").arg(std::round(length / units::kMetersPerFoot))};
}

// Bottom left corner: north arrow, scale bar, its length. Gives the box that they take.
QRectF paint_north_and_scale(const Canvas& canvas, MapRecord& record) {
    const double size = canvas.style.text_pt;
    const double scale = canvas.view.units_per_m();
    const ScaleBar bar = scale_bar(90.0 * size / 12.0 / scale, canvas.style.metric);
    const double text_width = width_of(bar.text, canvas.style.text_pt);
    const double bar_width = bar.length_m * scale;
    const QRectF page = canvas.view.page;
    const QRectF box(page.left() + 3.0, page.bottom() - 2.4 * size - 3.0,
                     1.9 * size + bar_width + 5.0 + text_width, 2.4 * size);
    canvas.painter.setPen(canvas.pen(kInk, 0.5));
    canvas.painter.setBrush(kPaper);
    canvas.painter.drawRect(box);
    const double middle = box.left() + 0.8 * size;
    canvas.painter.setBrush(kInk);
    canvas.painter.drawPolygon(
        QPolygonF({QPointF(middle, box.top() + 2.0), QPointF(middle - 4.0, box.top() + 0.9 * size),
                   QPointF(middle + 4.0, box.top() + 0.9 * size)}));
    const QString north = QStringLiteral("N");
    const double north_width = width_of(north, canvas.style.text_pt, true);
    const QRectF north_box(middle - north_width / 2.0, box.top() + 1.0 * size, north_width,
                           line_pitch(canvas.style.text_pt));
    paint_text(canvas.painter, north, paper_font(canvas.style.text_pt, true), north_box.topLeft(),
               size);
    const double y = box.center().y();
    const double x = box.left() + 1.6 * size;
    canvas.painter.setPen(canvas.pen(kInk, 2.0));
    canvas.painter.drawLine(QPointF(x, y), QPointF(x + bar_width, y));
    const QRectF text_box(x + bar_width + 4.0, y - line_pitch(canvas.style.text_pt) / 2.0,
                          text_width, line_pitch(canvas.style.text_pt));
    paint_text(canvas.painter, bar.text, paper_font(canvas.style.text_pt), text_box.topLeft(),
               size);
    canvas.painter.setBrush(Qt::NoBrush);
    record.texts.push_back({1, north, north_box, size});
    record.texts.push_back({1, bar.text, text_box, size});
    return box;
}

void paint_ground_layers(const Canvas& canvas, const Ranch& ranch, const MapContent& content,
                         const QImage* shade) {
    canvas.painter.fillRect(canvas.view.page, kPaper);
    paint_shade(canvas, ranch, shade);
    paint_soft(canvas, ranch);
    paint_off_limits(canvas, ranch);
    paint_shelter(canvas, ranch);
    for (const Trail& trail : ranch.trails) paint_trail(canvas, trail);
    paint_fences(canvas, ranch);
    paint_ways(canvas, content.ways);
    paint_lines(canvas, content.lines);
    paint_signs(canvas, ranch);
}

}  // namespace

double MapView::units_per_m() const {
    if (world.empty()) return 0.0;
    const double width = std::max(1.0, world.max_x - world.min_x);
    const double height = std::max(1.0, world.max_y - world.min_y);
    return std::min(page.width() / width, page.height() / height);
}

QPointF MapView::to_page(Point p) const {
    const double scale = units_per_m();
    const Point middle{(world.min_x + world.max_x) / 2.0, (world.min_y + world.max_y) / 2.0};
    return page.center() + QPointF((p.x - middle.x) * scale, (middle.y - p.y) * scale);
}

Point MapView::to_world(QPointF p) const {
    const double scale = units_per_m();
    const Point middle{(world.min_x + world.max_x) / 2.0, (world.min_y + world.max_y) / 2.0};
    if (scale <= 0.0) return middle;
    const QPointF from_center = p - page.center();
    return {middle.x + from_center.x() / scale, middle.y - from_center.y() / scale};
}

MapRecord paint_map(QPainter& painter, const MapView& view, const Ranch& ranch,
                    const MapContent& content, const MapStyle& style, const QImage* shade) {
    MapRecord record;
    if (view.units_per_m() <= 0.0) return record;
    const Canvas canvas{painter, view, style};
    painter.save();
    painter.setClipRect(view.page);
    paint_ground_layers(canvas, ranch, content, shade);
    std::vector<QRectF> taken;
    if (style.north_and_scale) taken.push_back(paint_north_and_scale(canvas, record));
    paint_names(canvas, ranch, content, taken, record);
    painter.restore();
    painter.setPen(canvas.pen(kInk, 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(view.page);
    return record;
}

QString herd_letter(int herd) {
    if (herd < 26) return QString(QChar(u'A' + static_cast<char16_t>(herd)));
    return QStringLiteral("H%1.").arg(herd + 1);
}

void paint_line_sample(QPainter& painter, QPointF left, double length, int herd, bool firm) {
    QPainterPath path(left);
    path.lineTo(left + QPointF(length, 0.0));
    stroke_feed_line(painter, path, herd, firm, 1.0);
}

}  // namespace haylane
