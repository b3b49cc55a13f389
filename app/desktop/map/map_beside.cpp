#include "app/desktop/map/map_beside.h"

#include <QSplitter>

namespace haylane {

QSplitter* map_beside(QWidget* map, QWidget* side, int map_px, int side_px) {
    auto* halves = new QSplitter;
    halves->addWidget(map);
    halves->addWidget(side);
    halves->setStretchFactor(0, 1);
    halves->setSizes({map_px, side_px});
    halves->setChildrenCollapsible(false);
    return halves;
}

}  // namespace haylane
