#pragma once
// Draws a point, line or area on the map: a click adds a corner, a double click or Enter ends it
// (the first click ends a point),
// Backspace takes the last corner back, Esc gives it up. The map can be moved meanwhile by its
// keys.

#include "app/desktop/map/map_tool.h"
#include "core/geometry/polyline.h"

#include <functional>
#include <optional>

#include <QPointF>

namespace haylane {

class DrawTool : public MapTool {
  public:
    enum class Shape { point, line, area };
    // `done` gets the corners, an area's without the first one again; nothing when it is given up.
    // Less than two corners of a line, or three of an area, are not taken as the end.
    using Done = std::function<void(std::optional<Polyline> drawn)>;
    // `snap`: where a corner goes that is set near something; empty = where it is set.
    using Snap = std::function<Point(const MapViewWidget& map, Point p)>;
    DrawTool(Shape shape, Done done, Snap snap = {})
        : shape_(shape), done_(std::move(done)), snap_(std::move(snap)) {}

    bool press(MapViewWidget& map, QMouseEvent& event) override;
    bool move(MapViewWidget& map, QMouseEvent& event) override;
    bool release(MapViewWidget& map, QMouseEvent& event) override;
    bool double_click(MapViewWidget& map, QMouseEvent& event) override;
    bool key(MapViewWidget& map, QKeyEvent& event) override;
    void paint(const MapViewWidget& map, QPainter& painter) const override;

  private:
    void end();
    [[nodiscard]] Point place(const MapViewWidget& map, QPointF at) const;

    Shape shape_;
    Done done_;
    Snap snap_;
    Polyline corners_;
    std::optional<Point> pointer_;
};

}  // namespace haylane
