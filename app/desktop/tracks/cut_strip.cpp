#include "app/desktop/tracks/cut_strip.h"

#include "app/desktop/look.h"
#include "app/desktop/tracks/track_layer.h"

#include <algorithm>
#include <cmath>

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

namespace haylane {
namespace {

constexpr double kMargin = 10.0;
constexpr double kTop = 6.0;
constexpr double kBar = 26.0;
constexpr double kClockRoom_px = 70.0;  // between two times of day

}  // namespace

CutStrip::CutStrip(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("What the rig did, by time"));
    setAccessibleDescription(tr("Arrow keys go from one piece to the next"));
}

void CutStrip::set_track(const LoggedTrack* track, const LocalDay* local) {
    track_ = track;
    local_ = local;
    picked_.reset();
    update();
}

void CutStrip::pick(std::optional<std::size_t> piece) {
    picked_ = piece;
    update();
}

double CutStrip::x_of(double time_s) const {
    const auto& pieces = track_->cut.pieces;
    const double span = std::max(1.0, pieces.back().end_s - pieces.front().start_s);
    return kMargin + (width() - 2.0 * kMargin) * (time_s - pieces.front().start_s) / span;
}

QPointF CutStrip::place_of(std::size_t piece) const {
    const Piece& one = track_->cut.pieces.at(piece);
    return {x_of((one.start_s + one.end_s) / 2.0), kTop + kBar / 2.0};
}

void CutStrip::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), look::kPaper);
    if (track_ == nullptr || track_->cut.pieces.empty()) return;
    const auto& pieces = track_->cut.pieces;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const QPen pen = motion_pen(pieces[i].motion);
        const QRectF bar(
            QPointF(x_of(pieces[i].start_s), kTop),
            QPointF(std::max(x_of(pieces[i].end_s), x_of(pieces[i].start_s) + 1.0), kTop + kBar));
        // Patterns as well as tones, for those who tell no colours apart.
        const bool dashed = pieces[i].motion == Motion::returning;
        const bool stopped = pieces[i].motion == Motion::stopped;
        painter.fillRect(bar, stopped  ? QBrush(look::kRule)
                              : dashed ? QBrush(pen.color(), Qt::BDiagPattern)
                                       : QBrush(pen.color()));
        if (picked_ == i) {
            painter.setPen(QPen(look::kRust, 3.0));
            painter.drawRect(bar.adjusted(1, 1, -1, -1));
        }
    }
    painter.setPen(look::kInk);
    const double minutes = (pieces.back().end_s - pieces.front().start_s) / 60.0;
    const double room = std::max(1.0, (width() - 2.0 * kMargin) / kClockRoom_px);
    double step = 1.0;
    for (const double round : {5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0})
        if (minutes / step > room) step = round;
    for (double t = std::ceil(pieces.front().start_s / (60.0 * step)) * 60.0 * step;
         t <= pieces.back().end_s; t += 60.0 * step) {
        painter.drawLine(QPointF(x_of(t), kTop + kBar), QPointF(x_of(t), kTop + kBar + 4.0));
        painter.drawText(QRectF(x_of(t) - 30.0, kTop + kBar + 4.0, 60.0, 18.0), Qt::AlignCenter,
                         QString::fromStdString(local_->clock(t)));
    }
    if (hasFocus()) {
        painter.setPen(QPen(look::kHay, 2.0));
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void CutStrip::mousePressEvent(QMouseEvent* event) {
    if (track_ == nullptr) return;
    for (std::size_t i = 0; i < track_->cut.pieces.size(); ++i) {
        const Piece& one = track_->cut.pieces[i];
        if (event->position().x() < x_of(one.start_s) || event->position().x() > x_of(one.end_s))
            continue;
        pick(i);
        emit piece_picked(i);
        return;
    }
}

void CutStrip::keyPressEvent(QKeyEvent* event) {
    const bool on = event->key() == Qt::Key_Right;
    if (track_ == nullptr || track_->cut.pieces.empty() || (!on && event->key() != Qt::Key_Left))
        return QWidget::keyPressEvent(event);
    const std::size_t last = track_->cut.pieces.size() - 1;
    std::size_t next = picked_.value_or(on ? last : 0);
    if (picked_) next = on ? std::min(last, *picked_ + 1) : (*picked_ > 0 ? *picked_ - 1 : 0);
    if (!picked_) next = 0;
    pick(next);
    emit piece_picked(next);
}

}  // namespace haylane
