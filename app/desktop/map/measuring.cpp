#include "app/desktop/map/measuring.h"

#include "app/desktop/map/map_view_widget.h"

namespace haylane {

void Measuring::start(MapViewWidget& map, bool metric) {
    end();
    map_ = &map;
    usual_ = map.tool();
    tool_ = std::make_shared<MeasureTool>(metric, [this] { end(); });
    map.set_tool(tool_.get());
    map.setCursor(Qt::CrossCursor);
    map.setFocus();
}

void Measuring::end() {
    if (!tool_) return;
    if (map_) {
        // Unless the page has begun something else meanwhile.
        if (map_->tool() == tool_.get()) map_->set_tool(usual_);
        // The tool may be at work: it goes when its event is done.
        QMetaObject::invokeMethod(
            map_, [tool = tool_] {}, Qt::QueuedConnection);
    }
    tool_.reset();
}

}  // namespace haylane
