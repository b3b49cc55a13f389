#pragma once
// One drawing at a time on a map: the drawing tool takes the place of the map's usual one, which is
// back before what was drawn is handed on.

#include "app/desktop/map/draw_tool.h"

#include <memory>

namespace haylane {

class Drawing {
  public:
    // Both must outlive it.
    Drawing(MapViewWidget& map, MapTool& usual) : map_(map), usual_(usual) {}

    void start(DrawTool::Shape shape, DrawTool::Done done, DrawTool::Snap snap = {});
    // Gives up what is being drawn; nothing is handed on.
    void end();
    [[nodiscard]] bool under_way() const { return tool_ != nullptr; }

  private:
    MapViewWidget& map_;
    MapTool& usual_;
    std::shared_ptr<DrawTool> tool_;
};

}  // namespace haylane
