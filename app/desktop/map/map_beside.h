#pragma once
// A map with something beside it, parted by a bar that can be dragged; the map takes what room
// there is.

class QSplitter;
class QWidget;

namespace haylane {

// Widths to begin with, in pixels. The caller gives the halves a parent.
[[nodiscard]] QSplitter* map_beside(QWidget* map, QWidget* side, int map_px, int side_px);

}  // namespace haylane
