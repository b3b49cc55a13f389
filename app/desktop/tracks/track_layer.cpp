#include "app/desktop/tracks/track_layer.h"

#include "app/desktop/look.h"
#include "app/desktop/map/map_view_widget.h"

#include <cmath>

#include <QMouseEvent>
#include <QPainter>

namespace haylane {
namespace {

constexpr double kNear_px = 7.0;
constexpr double kSameScale_ratio = 1.5;  // thinned anew when the map's scale changes by more

}  // namespace

QPen motion_pen(Motion motion) {
    switch (motion) {
        case Motion::laying:
            return {look::kHay, 6.0, Qt::SolidLine, Qt::FlatCap};
        case Motion::hauling:
            return {look::kInk, 2.0};
        case Motion::returning:
            return {look::kFadedInk, 2.0, Qt::DashLine};
        case Motion::loading:
            return {look::kRust, 4.0};
        default:
            return {look::kInk, 4.0, Qt::DotLine};
    }
}

QString motion_word(Motion motion) {
    switch (motion) {
        case Motion::laying:
            return TrackLayer::tr("laying");
        case Motion::hauling:
            return TrackLayer::tr("hauling");
        case Motion::returning:
            return TrackLayer::tr("driving back");
        case Motion::loading:
            return TrackLayer::tr("loading");
        default:
            return TrackLayer::tr("standing");
    }
}

void TrackLayer::set_proposal(std::shared_ptr<const LogProposal> proposal) {
    proposal_ = std::move(proposal);
    picked_.reset();
    drawn_for_px_per_m_ = 0.0;
}

const std::vector<std::vector<DrawnPiece>>& TrackLayer::drawn(const MapViewWidget& map) const {
    const double scale = map.px_per_m();
    const bool close = drawn_for_px_per_m_ > 0.0 &&
                       scale < drawn_for_px_per_m_ * kSameScale_ratio &&
                       scale > drawn_for_px_per_m_ / kSameScale_ratio;
    if (close) return drawn_;
    drawn_.clear();
    for (const LoggedTrack& track : proposal_->tracks)
        drawn_.push_back(drawn_pieces(track.cut, 1.0 / scale));
    drawn_for_px_per_m_ = scale;
    return drawn_;
}

bool TrackLayer::press(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton || !proposal_) return false;
    const Point at = map.world_at(event.position());
    std::optional<Picked> found;
    double nearest = kNear_px / map.px_per_m();
    const auto& all = drawn(map);
    for (std::size_t t = 0; t < all.size(); ++t) {
        for (std::size_t p = 0; p < all[t].size(); ++p) {
            if (all[t][p].path.empty()) continue;
            const double off = distance_m(at, all[t][p].path);
            if (off > nearest) continue;
            nearest = off;
            found = Picked{t, p};
        }
    }
    if (!found) return false;
    picked_ = found;
    map.update();
    emit piece_picked(found->track, found->piece);
    return true;
}

void TrackLayer::paint(const MapViewWidget& map, QPainter& painter) const {
    if (!proposal_) return;
    const auto& all = drawn(map);
    for (std::size_t t = 0; t < all.size(); ++t) {
        for (std::size_t p = 0; p < all[t].size(); ++p) {
            const DrawnPiece& piece = all[t][p];
            if (piece.path.empty()) continue;
            const bool picked = picked_ == Picked{t, p};
            const QPen pen = motion_pen(piece.motion);
            painter.setBrush(Qt::NoBrush);
            if (piece.path.size() > 1) {
                if (picked)
                    painter.strokePath(map.path_of(piece.path),
                                       QPen(look::kRust, pen.widthF() + 5.0));
                painter.strokePath(map.path_of(piece.path), pen);
                continue;
            }
            const QPointF at = map.place_of(piece.path.front());
            painter.setPen(QPen(picked ? look::kRust : look::kPaper, picked ? 3.0 : 1.0));
            painter.setBrush(pen.color());
            if (piece.motion == Motion::loading) {
                painter.drawRect(QRectF(at - QPointF(4, 4), QSizeF(8, 8)));
            } else {
                painter.drawEllipse(at, 3.5, 3.5);
            }
        }
    }
}

}  // namespace haylane
