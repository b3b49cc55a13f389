#pragma once
// The ranch as a paper map to look at and move about in: drag or arrow keys move it, wheel, + and -
// zoom, F shows all of it. A tool may take the mouse and keys first. Moving shows the last picture,
// moved; an exact one is painted when the map has been still for 120 ms. Without a ranch it is
// blank paper.

#include "app/desktop/jobs/open_job.h"
#include "app/papers/map_painter.h"

#include <memory>
#include <optional>
#include <vector>

#include <QPainterPath>
#include <QPixmap>
#include <QTimer>
#include <QWidget>

namespace haylane {

class MapTool;

class MapViewWidget : public QWidget {
    Q_OBJECT

  public:
    explicit MapViewWidget(QWidget* parent = nullptr);

    // Shows all of the ranch; nullptr = none.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    // The same ranch as it is now: what is shown on it, and the map's place, stay.
    void update_ranch(std::shared_ptr<const ShownRanch> ranch);
    // nullptr = none. The tool must outlive its use.
    void set_tool(MapTool* tool);
    [[nodiscard]] MapTool* tool() const { return tool_; }
    // What is shown on the ranch; a new ranch takes it away. The map stays where it is.
    void set_content(MapContent content);
    // Behind everything, in place of the hills' shade; nullptr = none.
    void set_backdrop(std::shared_ptr<const MapPicture> backdrop);
    void fit();
    // Moves, and goes farther off if need be, until the places are in view.
    void look_at(const std::vector<Point>& places);
    // Zooms about a place of the widget that stays where it is; factor > 1 comes nearer.
    void zoom(double factor, QPointF about);
    void zoom(double factor) { zoom(factor, QRectF(rect()).center()); }
    // Moves the map's paper by so many pixels.
    void pan(QPointF by);
    // Shows the box, as large as fits.
    void show_box(const Box& box);
    // Shows the place that another map shows, at its scale.
    void follow(const MapViewWidget& other);

    // 0 without a ranch.
    [[nodiscard]] double px_per_m() const { return px_per_m_; }
    [[nodiscard]] Point world_at(QPointF place) const;
    [[nodiscard]] QPointF place_of(Point world) const;
    // A line as it lies in the widget, not closed.
    [[nodiscard]] QPainterPath path_of(const Polyline& line) const;

    [[nodiscard]] QSize sizeHint() const override { return {860, 640}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 200}; }

  signals:
    void pointed_at(haylane::Point world);
    void pointed_away();
    void view_changed();  // moved or zoomed

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    // A painted picture and where in the world it lies.
    struct Picture {
        QPixmap pixmap;
        Point middle;
        double px_per_m = 0.0;
        QSize widget;  // its size then
    };

    void moved();
    void frame_box(const Box& box);
    void paint_picture();
    void draw_picture(QPainter& painter) const;
    [[nodiscard]] bool picture_is_exact() const;

    std::shared_ptr<const ShownRanch> ranch_;
    MapContent content_;
    std::shared_ptr<const MapPicture> backdrop_;
    MapTool* tool_ = nullptr;
    Point middle_;
    double px_per_m_ = 0.0;
    bool fitted_ = true;  // stays fitted when the widget changes size
    std::optional<Picture> picture_;
    QTimer still_;
    std::optional<QPointF> drag_from_;
};

}  // namespace haylane
