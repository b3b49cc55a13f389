// Greedy placing: sixteen directions on growing rings about the anchor. Boxes are kept in the cells
// of a grid, so that a place is tried against its neighbours only.

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

// Boxes by the cells of the page that they touch; those off the page stand in its outer cells.
class BoxGrid {
  public:
    BoxGrid(const QRectF& page, const std::vector<QRectF>& boxes)
        : corner_(page.topLeft()), nx_(cells(page.width())), ny_(cells(page.height())) {
        boxes_.resize(nx_ * ny_);
        for (const QRectF& box : boxes) add(box);
    }
    void add(const QRectF& box) {
        for_cells(box, [&](std::vector<QRectF>& cell) {
            cell.push_back(box);
            return false;
        });
    }
    [[nodiscard]] bool meets(const QRectF& box) {
        return for_cells(box, [&](const std::vector<QRectF>& cell) {
            return std::any_of(cell.begin(), cell.end(),
                               [&](const QRectF& other) { return other.intersects(box); });
        });
    }

  private:
    static constexpr double kCell = 48.0;
    static constexpr double kMostCells = 1000.0;  // a side
    static std::size_t cells(double length) {
        return static_cast<std::size_t>(std::clamp(std::ceil(length / kCell), 1.0, kMostCells));
    }
    static std::size_t cell_of(double from_corner, std::size_t count) {
        const double most = static_cast<double>(count - 1);
        return static_cast<std::size_t>(std::clamp(std::floor(from_corner / kCell), 0.0, most));
    }
    // True as soon as `what` is true of a cell that the box touches.
    template <class What>
    bool for_cells(const QRectF& box, What what) {
        const QRectF b = box.normalized();
        const std::size_t i_end = cell_of(b.right() - corner_.x(), nx_);
        const std::size_t j_end = cell_of(b.bottom() - corner_.y(), ny_);
        for (std::size_t j = cell_of(b.top() - corner_.y(), ny_); j <= j_end; ++j)
            for (std::size_t i = cell_of(b.left() - corner_.x(), nx_); i <= i_end; ++i)
                if (what(boxes_[j * nx_ + i])) return true;
        return false;
    }

    QPointF corner_;
    std::size_t nx_;
    std::size_t ny_;
    std::vector<std::vector<QRectF>> boxes_;
};

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

std::optional<PlacedLabel> place(const LabelWish& wish, const QRectF& page, BoxGrid& taken,
                                 BoxGrid& shy_of) {
    const std::vector<Place> all = places(wish);
    for (const bool shy : {true, false}) {
        for (const Place& spot : all) {
            if (!page.contains(spot.box) || taken.meets(spot.box)) continue;
            if (shy && shy_of.meets(spot.box)) continue;
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
    BoxGrid boxes(page, taken);
    BoxGrid shy(page, shy_of);
    for (const LabelWish& wish : wishes) {
        const auto label = place(wish, page, boxes, shy);
        if (!label) {
            layout.left_out.push_back(wish);
            continue;
        }
        boxes.add(label->box);
        layout.placed.push_back(*label);
    }
    return layout;
}

}  // namespace haylane
