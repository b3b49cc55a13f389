#pragma once
// Puts names on a map so that none covers another: in order of rank, each at the first free place
// around its anchor. Names that must stand reach further out and get a leader line. Names that find
// no place are left out and listed. Page units. Cost: labels x places x labels set.

#include <vector>

#include <QPointF>
#include <QRectF>
#include <QSizeF>
#include <QString>

namespace haylane {

struct LabelWish {
    QString text;
    QPointF anchor;
    QSizeF size;
    int rank = 0;          // low first
    bool centred = false;  // try to stand on the anchor itself (names of areas)
    bool must = false;
    bool bold = false;
};

struct PlacedLabel {
    LabelWish wish;
    QRectF box;
    bool leader = false;
};

struct LabelLayout {
    std::vector<PlacedLabel> placed;
    std::vector<LabelWish> left_out;
};

// `taken` are boxes that no label may touch; `shy_of` are boxes that labels avoid if they can.
[[nodiscard]] LabelLayout place_labels(std::vector<LabelWish> wishes, const QRectF& page,
                                       const std::vector<QRectF>& taken,
                                       const std::vector<QRectF>& shy_of);

}  // namespace haylane
