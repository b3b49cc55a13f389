#pragma once
// Moves the week's lines about on the map: a line is dragged as a whole, or by one of its ends, or
// moved with Ctrl and the arrow keys; Enter lays it there, Esc gives it up. While it moves, what
// that would change is told. Feedings in rings stay where they are.

#include "app/desktop/map/map_tool.h"
#include "core/geometry/polygon.h"
#include "core/plan/move_line.h"

#include <optional>
#include <vector>

#include <QObject>
#include <QPointF>

namespace haylane {

class LineHand : public QObject, public MapTool {
    Q_OBJECT

  public:
    using QObject::QObject;

    // The feedings as shown, in the plan's order, and what tells the figures of moving them; none =
    // nothing to move. `mover` must outlive its use.
    void set_feedings(const std::vector<PlannedFeeding>* feedings, LineMover* mover);
    // Ground closed to hay, painted over the map.
    void set_closed(MultiPolygon closed) { closed_ = std::move(closed); }
    void select(std::optional<std::size_t> feeding);
    [[nodiscard]] std::optional<std::size_t> selected() const { return selected_; }

    bool press(MapViewWidget& map, QMouseEvent& event) override;
    bool move(MapViewWidget& map, QMouseEvent& event) override;
    bool release(MapViewWidget& map, QMouseEvent& event) override;
    bool key(MapViewWidget& map, QKeyEvent& event) override;
    void paint(const MapViewWidget& map, QPainter& painter) const override;

  signals:
    void picked(std::size_t feeding);
    // The lines as they would be laid now.
    void moving(std::size_t feeding, const haylane::MovedLines& moved);
    void dropped(std::size_t feeding, const haylane::MultiPolyline& lines,
                 const haylane::MovedLines& moved);
    void given_up();
    void failed(const haylane::Error& error);

  private:
    enum class Grip { whole, start, end };
    struct Drag {
        std::size_t feeding = 0;
        std::size_t line = 0;
        Grip grip = Grip::whole;
        Point from;
        MultiPolyline planned;
        MultiPolyline lines;
        std::optional<MovedLines> told;  // of `lines`
    };

    [[nodiscard]] std::optional<Drag> grip_at(const MapViewWidget& map, QPointF place) const;
    [[nodiscard]] MultiPolyline lines_of(std::size_t feeding) const;
    void move_to(MapViewWidget& map, Point pointer);
    void tell();
    void drop(MapViewWidget& map);
    void give_up(MapViewWidget& map);

    const std::vector<PlannedFeeding>* feedings_ = nullptr;
    LineMover* mover_ = nullptr;
    MultiPolygon closed_;
    std::optional<std::size_t> selected_;
    std::optional<Drag> drag_;
    Point nudged_;          // by keys so far
    bool by_keys_ = false;  // the drag under way
    bool telling_ = false;  // asked for, at the end of the events that wait
};

}  // namespace haylane
