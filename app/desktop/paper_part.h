#pragma once
// A part of a paper on the screen: painted by what paints it in print, in larger type.

#include "app/papers/sheet.h"

#include <functional>

#include <QWidget>

namespace haylane {

class PaperPart : public QWidget {
    Q_OBJECT

  public:
    // Paints into the box, in points.
    using Paint = std::function<void(Sheet& sheet, const QRectF& box)>;

    PaperPart(const QString& accessible_name, int height_px, QWidget* parent = nullptr);
    // Blank where nothing is given.
    void set_paint(Paint paint);

    [[nodiscard]] QSize sizeHint() const override { return {300, height_px_}; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    Paint paint_;
    int height_px_;
};

}  // namespace haylane
