#pragma once
// A paper being written: text set in lines on pages, with a record of every line of text and its
// place, so that a layout can be checked. All lengths are points (1/72 inch), y down from the
// page's top. Text is never cut: a word wider than its column is broken.

#include <utility>
#include <vector>

#include <QFont>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QRectF>
#include <QSizeF>
#include <QString>

namespace haylane {

// One line of text as it stands on a page (pages count from 1).
struct PlacedText {
    int page = 1;
    QString text;
    QRectF box;
    double size_pt = 0.0;
};

struct SheetRecord {
    QSizeF page_pt;
    int pages = 0;
    std::vector<PlacedText> texts;
};

// The papers' font at a height in points (whole ones; one painter unit is one point).
[[nodiscard]] QFont paper_font(int size_pt, bool bold = false);

// Text with bold parts.
class Rich {
  public:
    Rich() = default;
    explicit Rich(const QString& text, bool bold = false) { add(text, bold); }
    Rich& add(const QString& text, bool bold = false);
    [[nodiscard]] const QString& text() const { return text_; }
    [[nodiscard]] const std::vector<std::pair<int, int>>& bold_parts() const { return bold_; }
    [[nodiscard]] bool empty() const { return text_.isEmpty(); }

  private:
    QString text_;
    std::vector<std::pair<int, int>> bold_;  // start, length
};

// Height of text set in a column, and width of text set in one line.
[[nodiscard]] double height_of(const Rich& text, int size_pt, double width);
[[nodiscard]] double width_of(const QString& text, int size_pt, bool bold = false);
// Distance from one line's top to the next one's.
[[nodiscard]] double line_pitch(int size_pt);

class Sheet {
  public:
    // `page` is the whole page; `margin` is kept free on all sides.
    Sheet(QPagedPaintDevice& device, QPainter& painter, QSizeF page, double margin);
    // One page without a margin on anything that can be painted on, a window for instance. It has
    // no second page.
    Sheet(QPainter& painter, QSizeF page);

    [[nodiscard]] QPainter& painter() { return painter_; }
    [[nodiscard]] QRectF area() const;
    [[nodiscard]] int page() const { return record_.pages; }
    [[nodiscard]] const SheetRecord& record() const { return record_; }
    void new_page();
    // Sets the text with its first line's top at `top_left`; gives the height used.
    double put(const Rich& text, int size_pt, QPointF top_left, double width);
    // Notes text that something else has painted on this page.
    void note(const QString& text, const QRectF& box, double size_pt);

  private:
    QPagedPaintDevice* device_ = nullptr;  // null: one page only
    QPainter& painter_;
    double margin_ = 0.0;
    SheetRecord record_;
};

}  // namespace haylane
