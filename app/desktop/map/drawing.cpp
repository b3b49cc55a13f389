#include "app/desktop/map/drawing.h"

#include "app/desktop/map/map_view_widget.h"

namespace haylane {

void Drawing::start(DrawTool::Shape shape, DrawTool::Done done, DrawTool::Snap snap) {
    tool_ = std::make_shared<DrawTool>(
        shape,
        [this, done = std::move(done)](std::optional<Polyline> drawn) {
            end();
            done(std::move(drawn));
        },
        std::move(snap));
    map_.set_tool(tool_.get());
    map_.setCursor(Qt::CrossCursor);
    map_.setFocus();
}

void Drawing::end() {
    map_.set_tool(&usual_);
    // The tool that calls this is still at work: it goes when its event is done.
    QMetaObject::invokeMethod(
        &map_, [tool = std::move(tool_)] {}, Qt::QueuedConnection);
}

}  // namespace haylane
