#pragma once
// Measuring on one map at a time: the measuring tool takes the place of the map's own tool, which
// is back at the end.

#include "app/desktop/map/measure_tool.h"

#include <memory>

#include <QPointer>

namespace haylane {

class MapViewWidget;

class Measuring {
  public:
    void start(MapViewWidget& map, bool metric);
    void end();
    // nullptr while nothing is measured.
    [[nodiscard]] const MeasureTool* tool() const { return tool_.get(); }

  private:
    QPointer<MapViewWidget> map_;
    MapTool* usual_ = nullptr;
    std::shared_ptr<MeasureTool> tool_;
};

}  // namespace haylane
