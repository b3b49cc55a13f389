#pragma once
// Picks and reshapes what is drawn on the ranch's map: a gate, yard or water is dragged; a pasture,
// trail or other shape shows its corners once picked: a corner is dragged (with every corner that
// other pastures have there, and to fences near it), a double click on the fence sets one, Delete
// takes it away, or the whole thing when no corner is picked. Asks for the changes; makes none.

#include "app/desktop/map/map_tool.h"
#include "app/desktop/ranch/corners.h"
#include "gis/book/edit_rows.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <QObject>
#include <QPointF>

namespace haylane {

// A row with a shape.
struct DrawnRow {
    std::string role;
    std::string uuid;
    std::string name;
    RowShape shape;
};

// Every row of the book that stands on the map, points last.
[[nodiscard]] std::vector<DrawnRow> drawn_rows(const RawRanch& raw);

class ShapeHand : public QObject, public MapTool {
    Q_OBJECT

  public:
    using QObject::QObject;

    // What was picked stays picked if it is still there.
    void set_rows(std::vector<DrawnRow> rows);
    [[nodiscard]] const std::vector<DrawnRow>& rows() const { return rows_; }
    void pick(const std::string& uuid);
    // nullptr = nothing.
    [[nodiscard]] const DrawnRow* picked() const;
    // A place drawn to a corner or fence near it.
    [[nodiscard]] Point snapped_to_fences(const MapViewWidget& map, Point p) const;

    bool press(MapViewWidget& map, QMouseEvent& event) override;
    bool move(MapViewWidget& map, QMouseEvent& event) override;
    bool release(MapViewWidget& map, QMouseEvent& event) override;
    bool double_click(MapViewWidget& map, QMouseEvent& event) override;
    bool key(MapViewWidget& map, QKeyEvent& event) override;
    void paint(const MapViewWidget& map, QPainter& painter) const override;

  signals:
    void picked_changed();
    void edit_wanted(const QString& what, const std::vector<haylane::RowEdit>& edits);

  private:
    [[nodiscard]] std::optional<std::size_t> row_at(const MapViewWidget& map, QPointF place) const;
    [[nodiscard]] std::optional<Point> corner_at(const MapViewWidget& map, QPointF place) const;
    void set_picked(std::optional<std::size_t> row);
    // The row picked, and the pastures kept together with a pasture, where `change` changes them.
    [[nodiscard]] std::vector<DrawnRow> changed(
        const std::function<bool(RowShape& shape)>& change) const;
    void ask(const QString& what, const std::vector<DrawnRow>& now);
    [[nodiscard]] std::string name_of(std::size_t row) const;

    std::vector<DrawnRow> rows_;
    std::vector<DrawnRow> moved_;  // while a corner is dragged; else empty
    std::optional<std::size_t> picked_;
    std::optional<Point> corner_;  // picked, of the row picked
    std::optional<Point> grip_;    // where the corner dragged was
};

}  // namespace haylane
