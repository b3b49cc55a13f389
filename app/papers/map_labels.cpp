// Greedy placing: sixteen directions on growing rings about the anchor.

#include "app/papers/map_labels.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace haylane {
namespace {

constexpr int kDirections = 16;
constexpr double kNearGap = 3.0;
constexpr double kRingStep = 9.0;
constexpr int kRings = 2;
constexpr int kRingsForAreas = 6;
constexpr int kRingsWhenMust = 16;
constexpr double kLeaderFrom = 7.0;

// Box of that size whose edge is `gap` from the anchor in a direction.
QRectF box_beside(QPointF anchor, QSizeF size, double angle, double gap) {
    const double dx = std::cos(angle) * (size.width() / 2.0 + gap);
    const double dy = std::sin(angle) * (size.height() / 2.0 + gap);
    return {anchor.x() + dx - size.width() / 2.0, anchor.y() + dy - size.height() / 2.0,
            size.width(), size.height()};
}

bool meets_any(const QRectF& box, const std::vector<QRectF>& others) {
    return std::any_of(others.begin(), others.end(),
                       [&](const QRectF& other) { return other.intersects(box); });
}

struct Place {
    QRectF box;
    double gap = 0.0;
};

std::vector<Place> places(const LabelWish& wish) {
    std::vector<Place> all;
    if (wish.centred) {
        for (const double shift : {0.0, -0.7, 0.7, -1.4, 1.4}) {
            const QPointF middle = wish.anchor + QPointF(0.0, shift * wish.size.height());
            all.push_back(
                {QRectF(middle.x() - wish.size.width() / 2.0, middle.y() - wish.size.height() / 2.0,
                        wish.size.width(), wish.size.height()),
                 0.0});
        }
    }
    const int rings = wish.must ? kRingsWhenMust : wish.centred ? kRingsForAreas : kRings;
    for (int ring = 0; ring < rings; ++ring) {
        const double gap = kNearGap + ring * kRingStep;
        for (int i = 0; i < kDirections; ++i) {
            const double angle = 2.0 * units::kPi * i / kDirections;
            all.push_back({box_beside(wish.anchor, wish.size, angle, gap), gap});
        }
    }
    return all;
}

std::optional<PlacedLabel> place(const LabelWish& wish, const QRectF& page,
                                 const std::vector<QRectF>& taken,
                                 const std::vector<QRectF>& shy_of) {
    const std::vector<Place> all = places(wish);
    for (const bool shy : {true, false}) {
        for (const Place& spot : all) {
            if (!page.contains(spot.box) || meets_any(spot.box, taken)) continue;
            if (shy && meets_any(spot.box, shy_of)) continue;
            return PlacedLabel{wish, spot.box, wish.must && spot.gap > kLeaderFrom};
        }
    }
    return std::nullopt;
}

}  // namespace

LabelLayout place_labels(std::vector<LabelWish> wishes, const QRectF& page,
                         const std::vector<QRectF>& taken, const std::vector<QRectF>& shy_of) {
    std::stable_sort(wishes.begin(), wishes.end(),
                     [](const LabelWish& a, const LabelWish& b) { return a.rank < b.rank; });
    LabelLayout layout;
    std::vector<QRectF> boxes = taken;
    for (const LabelWish& wish : wishes) {
        const auto label = place(wish, page, boxes, shy_of);
        if (!label) {
            layout.left_out.push_back(wish);
            continue;
        }
        boxes.push_back(label->box);
        layout.placed.push_back(*label);
    }
    return layout;
}

}  // namespace haylane
