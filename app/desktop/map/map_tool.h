#pragma once
// What a page does with the mouse and keys on a map, beyond moving about in it, and what it paints
// over the map's picture.

class QKeyEvent;
class QMouseEvent;
class QPainter;

namespace haylane {

class MapViewWidget;

class MapTool {
  public:
    MapTool() = default;
    virtual ~MapTool() = default;
    MapTool(const MapTool&) = delete;
    MapTool& operator=(const MapTool&) = delete;
    MapTool(MapTool&&) = delete;
    MapTool& operator=(MapTool&&) = delete;

    // True when taken: the map then does nothing with it.
    virtual bool press(MapViewWidget& /*map*/, QMouseEvent& /*event*/) { return false; }
    virtual bool move(MapViewWidget& /*map*/, QMouseEvent& /*event*/) { return false; }
    virtual bool release(MapViewWidget& /*map*/, QMouseEvent& /*event*/) { return false; }
    virtual bool double_click(MapViewWidget& /*map*/, QMouseEvent& /*event*/) { return false; }
    virtual bool key(MapViewWidget& /*map*/, QKeyEvent& /*event*/) { return false; }
    // In the widget's pixels; called for every frame.
    virtual void paint(const MapViewWidget& map, QPainter& painter) const = 0;
};

}  // namespace haylane
