// Draws one simulated morning, as recorded and as cut: track_picture OUT.png.
#include "app/papers/gui.h"
#include "core/tracks/drawn_pieces.h"
#include "core/tracks/laid_lines.h"
#include "tests/tracks/simulated_morning.h"

#include <cstdio>

#include <QFont>
#include <QImage>
#include <QPainter>

namespace haylane {
namespace {

constexpr double kPixelsPerMeter = 0.7;
constexpr int kWide = 980;
constexpr int kHigh = 770;
constexpr double kLeft_m = -60.0;
constexpr double kBottom_m = -60.0;

struct Look {
    Motion motion;
    QColor ink;
    double width;
    const char* words;
};
const std::array<Look, 5> kLooks{{{Motion::hauling, QColor(90, 90, 90), 1.5, "hauling"},
                                  {Motion::returning, QColor(150, 150, 150), 1.5, "returning"},
                                  {Motion::laying, QColor(200, 130, 0), 6.0, "laying hay"},
                                  {Motion::loading, QColor(30, 60, 140), 3.0, "loading"},
                                  {Motion::stopped, QColor(170, 30, 30), 8.0, "stopped"}}};

QPointF at(Point p, int panel) {
    return {(p.x - kLeft_m) * kPixelsPerMeter,
            panel * kHigh + kHigh - 20 - (p.y - kBottom_m) * kPixelsPerMeter};
}

QPolygonF line_of(const Polyline& line, int panel) {
    QPolygonF out;
    for (const Point p : line) out << at(p, panel);
    return out;
}

void draw_ground(QPainter& painter, const Ranch& ranch, int panel) {
    painter.setPen(QPen(QColor(110, 95, 70), 1.2));
    painter.setBrush(Qt::NoBrush);
    for (const Pasture& pasture : ranch.pastures)
        for (const Polygon& part : pasture.shape) {
            QPolygonF ring = line_of(part.outer, panel);
            painter.drawPolygon(ring);
        }
    painter.setBrush(QColor(110, 95, 70));
    painter.drawRect(QRectF(at(ranch.yards[0].at, panel) - QPointF(5, 5), QSizeF(10, 10)));
}

void draw_title(QPainter& painter, const QString& words, int panel) {
    painter.setPen(Qt::black);
    painter.drawText(QPointF(20, panel * kHigh + 26), words);
}

void draw_key(QPainter& painter) {
    double x = 20;
    for (const Look& look : kLooks) {
        painter.setPen(QPen(look.ink, look.width, Qt::SolidLine, Qt::RoundCap));
        const double y = kHigh + 46;
        if (look.motion == Motion::stopped)
            painter.drawPoint(QPointF(x + 15, y));
        else
            painter.drawLine(QPointF(x, y), QPointF(x + 30, y));
        painter.setPen(Qt::black);
        painter.drawText(QPointF(x + 38, y + 5), look.words);
        x += 150;
    }
}

void draw_cut(QPainter& painter, const CutTrack& cut) {
    const std::vector<DrawnPiece> pieces = drawn_pieces(cut, 1.0 / kPixelsPerMeter);
    for (const Look& look : kLooks) {
        painter.setPen(QPen(look.ink, look.width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        for (const DrawnPiece& piece : pieces) {
            if (piece.motion != look.motion) continue;
            if (piece.path.size() == 1)
                painter.drawPoint(at(piece.path[0], 1));
            else
                painter.drawPolyline(line_of(piece.path, 1));
        }
    }
}

// The first morning with five lines or more, all in the near pasture.
testing::Morning near_morning() {
    for (std::uint64_t seed = 1;; ++seed) {
        auto morning = testing::simulated_morning(seed);
        bool near = morning.planned.size() >= 5;
        for (const Polyline& line : morning.planned) near = near && box_of(line).max_x < 1290.0;
        if (near) return morning;
    }
}

int draw(const char* file) {
    const auto morning = near_morning();
    const CleanTrack clean = clean_track(morning.track);
    const CutTrack cut =
        cut_track(morning.ranch, clean, drive_speeds(morning.ranch, morning.ranch.rigs[0]));
    const Gui gui;
    QImage image(kWide, 2 * kHigh, QImage::Format_RGB32);
    image.fill(QColor(250, 247, 240));
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(QFont("DejaVu Sans", 12));
    draw_ground(painter, morning.ranch, 0);
    draw_ground(painter, morning.ranch, 1);
    painter.setPen(QPen(QColor(40, 40, 40), 1.6));
    for (const TrackPoint& point : morning.track) painter.drawPoint(at(point.at, 0));
    draw_cut(painter, cut);
    draw_title(painter, QString("As recorded: %1 points, one a second").arg(morning.track.size()),
               0);
    draw_title(painter, QString("As cut: %1 lines laid").arg(laid_lines(cut).size()), 1);
    draw_key(painter);
    painter.end();
    return image.save(file) ? 0 : 1;
}

}  // namespace
}  // namespace haylane

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: track_picture OUT.png\n");
        return 2;
    }
    return haylane::draw(argv[1]);
}
