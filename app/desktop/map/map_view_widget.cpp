// The picture reaches kOverscan pixels past every edge, so that a short drag shows no bare paper.

#include "app/desktop/map/map_view_widget.h"

#include "app/desktop/look.h"
#include "app/desktop/map/map_tool.h"
#include "app/desktop/map/scale_bar.h"
#include "core/plan/spoken.h"

#include <algorithm>
#include <chrono>
#include <cmath>

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>

namespace haylane {
namespace {

constexpr std::chrono::milliseconds kStill{120};
constexpr int kOverscan = 160;
constexpr double kFitMargin = 44.0;  // left and right, for names of places at the edge
constexpr double kNearest = 10.0;    // px a metre
constexpr double kFarthest = 0.002;  // px a metre: about 400 miles in a window
constexpr double kKeyZoom = 1.4;
constexpr double kKeyPan = 0.12;  // share of the shorter side
constexpr int kTextPx = 12;
constexpr Box kBegun{-800.0, -800.0, 800.0, 800.0};  // of a ranch without a pasture yet, metres

}  // namespace

MapViewWidget::MapViewWidget(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setCursor(Qt::OpenHandCursor);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setAccessibleName(tr("Map of the ranch"));
    setAccessibleDescription(tr("Arrow keys move the map, plus and minus zoom, F shows all of it"));
    still_.setSingleShot(true);
    still_.setInterval(kStill);
    connect(&still_, &QTimer::timeout, this, [this] {
        if (!isVisible()) return;  // painted when it is shown
        paint_picture();
        update();
    });
}

void MapViewWidget::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    content_ = {};
    picture_.reset();
    px_per_m_ = 0.0;
    fit();
}

void MapViewWidget::update_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    picture_.reset();
    update();
}

void MapViewWidget::set_tool(MapTool* tool) {
    tool_ = tool;
    setCursor(Qt::OpenHandCursor);
    update();
}

void MapViewWidget::set_content(MapContent content) {
    content_ = std::move(content);
    picture_.reset();
    update();
}

void MapViewWidget::set_backdrop(std::shared_ptr<const MapPicture> backdrop) {
    backdrop_ = std::move(backdrop);
    picture_.reset();
    update();
}

void MapViewWidget::fit() {
    fitted_ = true;
    if (!ranch_) {
        update();
        return;
    }
    const Box box = box_to_show({}, ranch_->open.checked.ranch);
    frame_box(box.empty() ? kBegun : box);
}

void MapViewWidget::show_box(const Box& box) {
    if (!ranch_) return;
    fitted_ = false;
    frame_box(box);
}

void MapViewWidget::frame_box(const Box& box) {
    const QRectF page = QRectF(rect()).adjusted(kFitMargin, 0.0, -kFitMargin, 0.0);
    const MapView view{box, page};
    if (view.units_per_m() <= 0.0) return;
    middle_ = view.to_world(QRectF(rect()).center());
    px_per_m_ = std::clamp(view.units_per_m(), kFarthest, kNearest);
    moved();
}

void MapViewWidget::look_at(const std::vector<Point>& places) {
    if (px_per_m_ <= 0.0 || places.empty()) return;
    Box box;
    for (const Point& p : places) box.add(p);
    const MapView view{box.grown_by(60.0), QRectF(rect())};
    middle_ = {(box.min_x + box.max_x) / 2.0, (box.min_y + box.max_y) / 2.0};
    px_per_m_ = std::clamp(std::min(px_per_m_, view.units_per_m()), kFarthest, kNearest);
    fitted_ = false;
    moved();
}

void MapViewWidget::follow(const MapViewWidget& other) {
    if (!ranch_ || (middle_ == other.middle_ && px_per_m_ == other.px_per_m_)) return;
    middle_ = other.middle_;
    px_per_m_ = other.px_per_m_;
    fitted_ = other.fitted_;
    moved();
}

void MapViewWidget::zoom(double factor, QPointF about) {
    if (px_per_m_ <= 0.0 || !(factor > 0.0)) return;
    const Point held = world_at(about);
    px_per_m_ = std::clamp(px_per_m_ * factor, kFarthest, kNearest);
    middle_ = middle_ + (held - world_at(about));
    fitted_ = false;
    moved();
}

void MapViewWidget::pan(QPointF by) {
    if (px_per_m_ <= 0.0) return;
    middle_ = middle_ + Point{-by.x() / px_per_m_, by.y() / px_per_m_};
    fitted_ = false;
    moved();
}

Point MapViewWidget::world_at(QPointF place) const {
    if (px_per_m_ <= 0.0) return middle_;
    const QPointF off = place - QRectF(rect()).center();
    return middle_ + Point{off.x() / px_per_m_, -off.y() / px_per_m_};
}

QPointF MapViewWidget::place_of(Point world) const {
    const Point off = world - middle_;
    return QRectF(rect()).center() + QPointF(off.x * px_per_m_, -off.y * px_per_m_);
}

QPainterPath MapViewWidget::path_of(const Polyline& line) const {
    QPainterPath path;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const QPointF at = place_of(line[i]);
        i == 0 ? path.moveTo(at) : path.lineTo(at);
    }
    return path;
}

void MapViewWidget::moved() {
    still_.start();
    update();
    emit view_changed();
    // The place under a resting pointer has changed too.
    if (underMouse()) emit pointed_at(world_at(mapFromGlobal(QCursor::pos())));
}

bool MapViewWidget::picture_is_exact() const {
    return picture_ && picture_->middle == middle_ && picture_->px_per_m == px_per_m_ &&
           picture_->widget == size();
}

void MapViewWidget::paint_picture() {
    if (!ranch_ || px_per_m_ <= 0.0 || size().isEmpty()) return;
    const QSize size_px = size() + QSize(2 * kOverscan, 2 * kOverscan);
    const double ratio = devicePixelRatioF();
    QPixmap pixmap(size_px * ratio);
    pixmap.setDevicePixelRatio(ratio);
    // One pixel larger all round, so that the map's frame lies outside.
    const QRectF page = QRectF(QPointF(0.0, 0.0), size_px).adjusted(-1.0, -1.0, 1.0, 1.0);
    const double half_x = page.width() / 2.0 / px_per_m_;
    const double half_y = page.height() / 2.0 / px_per_m_;
    const MapView view{
        {middle_.x - half_x, middle_.y - half_y, middle_.x + half_x, middle_.y + half_y}, page};
    QPainter painter(&pixmap);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    const MapStyle style{.text_pt = kTextPx, .north_and_scale = false};
    // The backdrop is the undermost picture, for as long as this paints.
    if (backdrop_) content_.pictures.insert(content_.pictures.begin(), *backdrop_);
    const bool shaded = !backdrop_ && !ranch_->shade.isNull();
    [[maybe_unused]] const MapRecord record =
        paint_map(painter, view, ranch_->open.checked.ranch, content_, style,
                  shaded ? &ranch_->shade : nullptr);
    if (backdrop_) content_.pictures.erase(content_.pictures.begin());
    picture_ = Picture{pixmap, middle_, px_per_m_, size()};
}

void MapViewWidget::draw_picture(QPainter& painter) const {
    if (!picture_) return;
    const double scale = px_per_m_ / picture_->px_per_m;
    const QSizeF size_px = picture_->pixmap.deviceIndependentSize() * scale;
    const QPointF middle = place_of(picture_->middle);
    const QRectF target(middle - QPointF(size_px.width() / 2.0, size_px.height() / 2.0), size_px);
    painter.setRenderHint(QPainter::SmoothPixmapTransform, scale != 1.0);
    painter.drawPixmap(target, picture_->pixmap, QRectF(picture_->pixmap.rect()));
}

void MapViewWidget::paintEvent(QPaintEvent* /*event*/) {
    if (!picture_) paint_picture();
    if (picture_is_exact()) {
        still_.stop();
    } else if (picture_ && !still_.isActive()) {
        still_.start();  // moved while it was hidden
    }
    QPainter painter(this);
    painter.fillRect(rect(), look::kPaper);
    draw_picture(painter);
    if (!ranch_) return;
    if (tool_ != nullptr) {
        painter.save();
        painter.setRenderHint(QPainter::Antialiasing);
        tool_->paint(*this, painter);
        painter.restore();
    }
    const bool metric = speaks_metric(ranch_->open.checked.ranch.settings);
    paint_scale_bar(painter, QPointF(10.5, height() - 10.5), px_per_m_, metric);
    painter.setPen(QPen(hasFocus() ? look::kHay.darker(115) : look::kRule, hasFocus() ? 3.0 : 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5));
}

void MapViewWidget::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (fitted_) {
        fit();
    } else {
        still_.start();
    }
}

void MapViewWidget::mousePressEvent(QMouseEvent* event) {
    if (tool_ != nullptr && px_per_m_ > 0.0 && tool_->press(*this, *event)) return;
    if (event->button() != Qt::LeftButton) return;
    drag_from_ = event->position();
    setCursor(Qt::ClosedHandCursor);
}

void MapViewWidget::mouseMoveEvent(QMouseEvent* event) {
    const bool taken =
        !drag_from_ && tool_ != nullptr && px_per_m_ > 0.0 && tool_->move(*this, *event);
    if (drag_from_ && !taken) {
        pan(event->position() - *drag_from_);
        drag_from_ = event->position();
    }
    if (px_per_m_ > 0.0) emit pointed_at(world_at(event->position()));
}

void MapViewWidget::mouseReleaseEvent(QMouseEvent* event) {
    if (!drag_from_ && tool_ != nullptr && px_per_m_ > 0.0 && tool_->release(*this, *event)) return;
    if (event->button() != Qt::LeftButton) return;
    drag_from_.reset();
    setCursor(Qt::OpenHandCursor);
}

void MapViewWidget::mouseDoubleClickEvent(QMouseEvent* event) {
    if (tool_ != nullptr && px_per_m_ > 0.0 && tool_->double_click(*this, *event)) return;
    QWidget::mouseDoubleClickEvent(event);
}

void MapViewWidget::leaveEvent(QEvent* event) {
    QWidget::leaveEvent(event);
    emit pointed_away();
}

void MapViewWidget::wheelEvent(QWheelEvent* event) {
    if (event->angleDelta().y() == 0) return event->ignore();  // a wheel turned sideways
    // 120 is one notch of a wheel; touch pads send less at a time.
    zoom(std::pow(1.2, event->angleDelta().y() / 120.0), event->position());
    event->accept();
}

void MapViewWidget::keyPressEvent(QKeyEvent* event) {
    if (tool_ != nullptr && px_per_m_ > 0.0 && tool_->key(*this, *event)) return;
    const double step = kKeyPan * std::min(width(), height());
    switch (event->key()) {
        case Qt::Key_Left:
            return pan({step, 0.0});
        case Qt::Key_Right:
            return pan({-step, 0.0});
        case Qt::Key_Up:
            return pan({0.0, step});
        case Qt::Key_Down:
            return pan({0.0, -step});
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            return zoom(kKeyZoom);
        case Qt::Key_Minus:
            return zoom(1.0 / kKeyZoom);
        case Qt::Key_F:
            return fit();
        default:
            QWidget::keyPressEvent(event);
    }
}

}  // namespace haylane
