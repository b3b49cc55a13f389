#pragma once
// A track's morning as a strip of time: what the rig did, minute by minute. A click picks a piece,
// arrow keys go from one to the next.

#include "app/session/local_day.h"
#include "app/session/log_tracks.h"

#include <optional>

#include <QWidget>

namespace haylane {

class CutStrip : public QWidget {
    Q_OBJECT

  public:
    explicit CutStrip(QWidget* parent = nullptr);

    // Both must outlive their use; nullptr = none.
    void set_track(const LoggedTrack* track, const LocalDay* local);
    void pick(std::optional<std::size_t> piece);
    [[nodiscard]] std::optional<std::size_t> picked() const { return picked_; }
    // The middle of a piece, for a pointer.
    [[nodiscard]] QPointF place_of(std::size_t piece) const;

    [[nodiscard]] QSize sizeHint() const override { return {400, 58}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, 58}; }

  signals:
    void piece_picked(std::size_t piece);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    [[nodiscard]] double x_of(double time_s) const;

    const LoggedTrack* track_ = nullptr;
    const LocalDay* local_ = nullptr;
    std::optional<std::size_t> picked_;
};

}  // namespace haylane
