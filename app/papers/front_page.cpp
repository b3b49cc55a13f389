// Heights are measured first; the first arrangement that leaves the map 3 inches is painted. The
// safety block stands beside the map or under it, whichever leaves the map the larger scale.

#include "app/papers/front_page.h"

#include "app/papers/map_painter.h"
#include "app/papers/safety.h"
#include "app/papers/words.h"

#include <algorithm>

namespace haylane {
namespace {

constexpr int kText = 12;
constexpr int kTopLine = 13;
constexpr double kLeastMapHeight = 3.0 * 72.0;
constexpr double kGap = 6.0;
constexpr double kBoxColumn = 30.0;
constexpr double kHerdGap = 2.0;
constexpr double kRowGap = 0.0;
const QColor kInk(0x1c, 0x19, 0x15);

QString to_q(const std::string& text) { return QString::fromStdString(text); }

Rich safety_block() {
    Rich text(QStringLiteral("Safety. "), true);
    text.add(safety_text());
    return text;
}

Rich second_line(const SheetInput& input) {
    const sys_days last = input.plan.from + std::chrono::days{std::max(1, input.plan.days) - 1};
    const int year = static_cast<int>(std::chrono::year_month_day{last}.year());
    Rich text(to_q(input.plan.ranch), true);
    text.add(QStringLiteral(
                 ", %1 to %2 %3. Number = day (1 = %4). ✎ = pencil. ⚠ = caution. Page 1 of %5.")
                 .arg(to_q(words::weekday_and_day(input.plan.from)), to_q(words::short_date(last)))
                 .arg(year)
                 .arg(to_q(words::weekday(input.plan.from)))
                 .arg(std::max(1, input.pages)));
    return text;
}

// The rows for this page and the rest.
struct Share {
    std::vector<HerdRows> here;
    std::vector<HerdRows> later;
    Rich note;
    double height = 0.0;
};

double rows_height(const Share& share, double width) {
    double height = share.note.empty() ? 0.0 : height_of(share.note, kText, width) + kHerdGap;
    for (const HerdRows& herd : share.here) height += height_of_herd_rows(herd, kText, width);
    return height;
}

// "Thu 14 and later days"
QString first_later_day(const SheetInput& input, int last_day) {
    return to_q(words::weekday_and_day(input.plan.from + std::chrono::days{last_day})) +
           " and later days";
}

// Keeps the first `herds` herds and days up to `last_day`.
Share share_rows(const SheetInput& input, const std::vector<HerdRows>& all, int last_day,
                 std::size_t herds, double width) {
    Share share;
    for (std::size_t i = 0; i < all.size(); ++i) {
        HerdRows here{all[i].herd, all[i].heading, {}, all[i].in_rings};
        HerdRows later = here;
        for (const FeedingRow& row : all[i].rows) {
            (i < herds && row.day <= last_day ? here : later).rows.push_back(row);
        }
        if (!here.rows.empty()) share.here.push_back(here);
        if (!later.rows.empty()) share.later.push_back(later);
    }
    if (!share.later.empty()) {
        const QString what = herds < all.size() ? QStringLiteral("More herds and days")
                                                : first_later_day(input, last_day);
        share.note.add(what + " are on page 2.", true);
    }
    share.height = rows_height(share, width);
    return share;
}

Share choose_rows(const SheetInput& input, double width, double room) {
    const auto rows = [&](Sharing sharing) {
        return herd_rows(input.plan, input.ranch, input.metric, sharing);
    };
    const std::size_t herds = input.ranch.herds.size();
    for (const Sharing sharing : {Sharing::none, Sharing::pencil_rows, Sharing::all_rows}) {
        Share share = share_rows(input, rows(sharing), input.plan.days, herds, width);
        if (share.height <= room) return share;
    }
    const std::vector<HerdRows> brief = rows(Sharing::all_rows);
    for (int last_day = input.plan.days - 1; last_day >= 1; --last_day) {
        Share share = share_rows(input, brief, last_day, herds, width);
        if (share.height <= room) return share;
    }
    for (std::size_t fewer = brief.size(); fewer > 0; --fewer) {
        Share share = share_rows(input, brief, 1, fewer - 1, width);
        if (share.height <= room) return share;
    }
    return share_rows(input, brief, 0, 0, width);
}

struct MapPlaces {
    QRectF map;
    QRectF safety;
};

double map_scale(const QRectF& map, const Box& world) { return MapView{world, map}.units_per_m(); }

MapPlaces beside(const QRectF& room) {
    const Rich safety = safety_block();
    double width = 0.3 * room.width();
    while (width < 0.6 * room.width() && height_of(safety, kText, width) > room.height()) {
        width += 2.0;
    }
    const double map_width = room.width() - width - kGap;
    return {QRectF(room.left(), room.top(), map_width, room.height()),
            QRectF(room.left() + map_width + kGap, room.top(), width, room.height())};
}

MapPlaces under(const QRectF& room) {
    const double height = height_of(safety_block(), kText, room.width()) + kGap;
    return {QRectF(room.left(), room.top(), room.width(), room.height() - height),
            QRectF(room.left(), room.bottom() - height + kGap, room.width(), height - kGap)};
}

MapPlaces place_map(const QRectF& room, const Box& world) {
    const MapPlaces at_side = beside(room);
    const MapPlaces below = under(room);
    if (below.map.height() < kLeastMapHeight) return at_side;
    return map_scale(below.map, world) > map_scale(at_side.map, world) ? below : at_side;
}

void paint_map_part(Sheet& sheet, const SheetInput& input, const QRectF& room) {
    const MapContent content = map_content(input.plan, input.ranch);
    const Box world = box_to_show(content, input.ranch);
    const MapPlaces places = place_map(room, world);
    const MapStyle style{
        .text_pt = kText, .ink = 1.0, .metric = input.metric, .north_and_scale = true};
    const MapRecord record = paint_map(sheet.painter(), MapView{world, places.map}, input.ranch,
                                       content, style, &input.shade);
    for (const PlacedText& text : record.texts) sheet.note(text.text, text.box, text.size_pt);
    sheet.put(safety_block(), kText, places.safety.topLeft(), places.safety.width());
}

void paint_tick_box(QPainter& painter, QPointF top_left, bool firm) {
    QPen pen(kInk, 0.8);
    if (!firm) pen.setDashPattern({2.0, 2.0});
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(top_left + QPointF(0.0, 1.8), QSizeF(24.0, 10.4)));
}

}  // namespace

double height_of_herd_rows(const HerdRows& herd, int size_pt, double width) {
    double height = height_of(herd.heading, size_pt, width - kBoxColumn) + kHerdGap;
    for (const FeedingRow& row : herd.rows) {
        height += height_of(row.text, size_pt, width - kBoxColumn) + kRowGap;
    }
    return height;
}

double paint_herd_rows(Sheet& sheet, const HerdRows& herd, int size_pt, QPointF top_left,
                       double width) {
    QPointF at = top_left;
    sheet.painter().setPen(QPen(kInk, 0.6));
    sheet.painter().drawLine(at + QPointF(0.0, 1.0), at + QPointF(width, 1.0));
    at.ry() += kHerdGap;
    const QPointF sample = at + QPointF(0.0, 0.6 * size_pt);
    if (herd.in_rings)
        paint_ring_sample(sheet.painter(), sample, 24.0);
    else
        paint_line_sample(sheet.painter(), sample, 24.0, herd.herd.value, true);
    at.ry() += sheet.put(herd.heading, size_pt, at + QPointF(kBoxColumn, 0.0), width - kBoxColumn);
    for (const FeedingRow& row : herd.rows) {
        paint_tick_box(sheet.painter(), at, row.firm);
        at.ry() += sheet.put(row.text, size_pt, at + QPointF(kBoxColumn, 0.0), width - kBoxColumn) +
                   kRowGap;
    }
    return at.y() - top_left.y();
}

std::vector<HerdRows> paint_front_page(Sheet& sheet, const SheetInput& input) {
    const QRectF area = sheet.area();
    double y = area.top();
    y += sheet.put(Rich(to_q(words::hay_lasts(input.plan.hay_lasts)), true), kTopLine,
                   {area.left(), y}, area.width());
    y += sheet.put(second_line(input), kText, {area.left(), y}, area.width()) + kGap;
    if (const Rich cautions = day_cautions(input.plan); !cautions.empty())
        y += sheet.put(cautions, kText, {area.left(), y - kGap / 2.0}, area.width());
    const double room = area.bottom() - y - kGap - kLeastMapHeight;
    const Share share = choose_rows(input, area.width(), room);
    const double map_bottom = area.bottom() - share.height - kGap;
    paint_map_part(sheet, input, QRectF(area.left(), y, area.width(), map_bottom - y));
    y = map_bottom + kGap;
    for (const HerdRows& herd : share.here) {
        y += paint_herd_rows(sheet, herd, kText, {area.left(), y}, area.width());
    }
    if (!share.note.empty()) {
        sheet.put(share.note, kText, {area.left(), y + kHerdGap}, area.width());
    }
    return share.later;
}

}  // namespace haylane
