// Names with a paper halo, feed lines that lie close together under one label, north arrow and
// scale.

#include "app/papers/map_canvas.h"
#include "app/papers/map_labels.h"
#include "core/base/units.h"

#include <algorithm>
#include <cmath>

#include <QTextLayout>

namespace haylane {
namespace {

constexpr double kSide = 2.5;  // kept free at each side of a name

// Text in one line with a paper halo under it.
void paint_text(QPainter& painter, const QString& text, const QFont& font, QPointF top_left,
                double size) {
    const QPointF baseline = top_left + QPointF(0.0, 0.93 * size);
    QPainterPath shape;
    shape.addText(baseline, font, text);
    painter.strokePath(shape,
                       QPen(QColor(kMapPaper), 2.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    QTextLayout layout(text, font);
    QTextOption option;
    option.setUseDesignMetrics(true);
    layout.setTextOption(option);
    layout.beginLayout();
    QTextLine line = layout.createLine();
    line.setLineWidth(1.0e6);
    line.setPosition({0.0, -line.ascent()});
    layout.endLayout();
    painter.setPen(QColor(kMapInk));
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
        const QSizeF size(width_of(text, canvas_.style.text_pt, must) + 2.0 * kSide,
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

// The longest round length that fits.
double round_length_m(double longest_m, double unit_m) {
    double best = 0.0;
    for (const double power : {0.01, 0.1, 1.0, 10.0, 100.0, 1.0e3, 1.0e4, 1.0e5}) {
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

}  // namespace

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
        canvas.painter.setPen(canvas.pen(QColor(kMapInk), 0.6));
        canvas.painter.drawLine(label.wish.anchor, label.box.center());
    }
    for (const PlacedLabel& label : layout.placed) {
        paint_text(canvas.painter, label.wish.text, paper_font(size, label.wish.bold),
                   label.box.topLeft() + QPointF(kSide, 0.0), size);
        record.texts.push_back({1, label.wish.text, label.box, static_cast<double>(size)});
    }
    for (const LabelWish& wish : layout.left_out) record.left_out.push_back(wish.text);
}

QRectF paint_north_and_scale(const Canvas& canvas, MapRecord& record) {
    const double size = canvas.style.text_pt;
    const double scale = canvas.view.units_per_m();
    const ScaleBar bar = scale_bar(90.0 * size / 12.0 / scale, canvas.style.metric);
    const double text_width = width_of(bar.text, canvas.style.text_pt);
    const double bar_width = bar.length_m * scale;
    const QRectF page = canvas.view.page;
    const QRectF box(page.left() + 3.0, page.bottom() - 2.4 * size - 3.0,
                     1.9 * size + bar_width + 5.0 + text_width, 2.4 * size);
    canvas.painter.setPen(canvas.pen(QColor(kMapInk), 0.5));
    canvas.painter.setBrush(QColor(kMapPaper));
    canvas.painter.drawRect(box);
    const double middle = box.left() + 0.8 * size;
    canvas.painter.setBrush(QColor(kMapInk));
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
    canvas.painter.setPen(canvas.pen(QColor(kMapInk), 2.0));
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

}  // namespace haylane
