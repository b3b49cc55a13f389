#pragma once
// Cut tracks over the map, by what the rig did: laying as a broad hay-coloured line, hauling in
// ink, driving back in dashes, loading as squares, stops as dots. A click picks a piece.

#include "app/desktop/map/map_tool.h"
#include "app/session/log_tracks.h"
#include "core/tracks/drawn_pieces.h"

#include <memory>
#include <optional>
#include <vector>

#include <QObject>
#include <QPen>

namespace haylane {

// How a motion is drawn, on the map and on the time strip.
[[nodiscard]] QPen motion_pen(Motion motion);
// "laying", as a word of the window's language.
[[nodiscard]] QString motion_word(Motion motion);

class TrackLayer : public QObject, public MapTool {
    Q_OBJECT

  public:
    using QObject::QObject;

    struct Picked {
        std::size_t track = 0;
        std::size_t piece = 0;
        friend bool operator==(const Picked&, const Picked&) = default;
    };

    // nullptr = none.
    void set_proposal(std::shared_ptr<const LogProposal> proposal);
    void pick(std::optional<Picked> picked) { picked_ = picked; }

    bool press(MapViewWidget& map, QMouseEvent& event) override;
    void paint(const MapViewWidget& map, QPainter& painter) const override;

  signals:
    void piece_picked(std::size_t track, std::size_t piece);

  private:
    // Thinned for the scale that the map last had, by track.
    const std::vector<std::vector<DrawnPiece>>& drawn(const MapViewWidget& map) const;

    std::shared_ptr<const LogProposal> proposal_;
    std::optional<Picked> picked_;
    mutable double drawn_for_px_per_m_ = 0.0;
    mutable std::vector<std::vector<DrawnPiece>> drawn_;
};

}  // namespace haylane
