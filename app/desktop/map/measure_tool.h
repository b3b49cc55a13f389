#pragma once
// Measures on the map: a click adds a corner; the length so far, and the ground inside from three
// corners on, stand beside the pointer. Backspace takes the last corner back, a double click or
// Enter leaves the figure standing, Esc ends measuring.

#include "app/desktop/map/map_tool.h"
#include "core/geometry/polyline.h"

#include <functional>
#include <optional>

#include <QString>

namespace haylane {

class MeasureTool : public MapTool {
  public:
    // `ended` is called while an event of this tool is handled: it must not delete the tool there.
    MeasureTool(bool metric, std::function<void()> ended)
        : metric_(metric), ended_(std::move(ended)) {}

    bool press(MapViewWidget& map, QMouseEvent& event) override;
    bool move(MapViewWidget& map, QMouseEvent& event) override;
    bool release(MapViewWidget& map, QMouseEvent& event) override;
    bool double_click(MapViewWidget& map, QMouseEvent& event) override;
    bool key(MapViewWidget& map, QKeyEvent& event) override;
    void paint(const MapViewWidget& map, QPainter& painter) const override;

    // "1,320 ft" or "2.4 miles; 40 acres inside"; empty before there is anything to say.
    [[nodiscard]] QString words() const;

  private:
    [[nodiscard]] Polyline measured() const;

    bool metric_;
    std::function<void()> ended_;
    Polyline corners_;
    std::optional<Point> pointer_;
    bool standing_ = false;  // a click begins anew
};

}  // namespace haylane
