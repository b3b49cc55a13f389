// Lines are set by QTextLayout with design metrics (no rounding to pixels) at a fixed pitch. The
// font is DejaVu Sans, which is broad, narrowed to 88 % of its width; its height stays.

#include "app/papers/sheet.h"

#include <QTextLayout>

namespace haylane {
namespace {

constexpr int kStretchPercent = 80;
constexpr double kPitchRatio = 1.1;
constexpr double kAscentRatio = 0.93;
const QColor kInk(0x1c, 0x19, 0x15);

QList<QTextLayout::FormatRange> bold_formats(const Rich& text) {
    QList<QTextLayout::FormatRange> ranges;
    for (const auto& [start, length] : text.bold_parts()) {
        QTextLayout::FormatRange range;
        range.start = start;
        range.length = length;
        range.format.setFontWeight(QFont::Bold);
        ranges.push_back(range);
    }
    return ranges;
}

// Breaks the text into lines; gives the height.
double set_lines(QTextLayout& layout, int size_pt, double width) {
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    option.setUseDesignMetrics(true);
    layout.setTextOption(option);
    double y = 0.0;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        line.setPosition({0.0, y + kAscentRatio * size_pt - line.ascent()});
        y += line_pitch(size_pt);
    }
    layout.endLayout();
    return y;
}

}  // namespace

QFont paper_font(int size_pt, bool bold) {
    QFont font;
    font.setFamilies({QStringLiteral("DejaVu Sans"), QStringLiteral("sans-serif")});
    font.setPixelSize(size_pt);
    font.setBold(bold);
    font.setStretch(kStretchPercent);
    // Any spacing at all keeps "ff" two letters, so that text found in the PDF is as it was
    // written.
    font.setLetterSpacing(QFont::AbsoluteSpacing, 0.02);
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

Rich& Rich::add(const QString& text, bool bold) {
    if (bold && !text.isEmpty()) {
        bold_.emplace_back(static_cast<int>(text_.size()), static_cast<int>(text.size()));
    }
    text_ += text;
    return *this;
}

double line_pitch(int size_pt) { return kPitchRatio * size_pt; }

double height_of(const Rich& text, int size_pt, double width) {
    QTextLayout layout(text.text(), paper_font(size_pt));
    layout.setFormats(bold_formats(text));
    return set_lines(layout, size_pt, width);
}

double width_of(const QString& text, int size_pt, bool bold) {
    QTextLayout layout(text, paper_font(size_pt, bold));
    set_lines(layout, size_pt, 1.0e6);
    return layout.lineCount() > 0 ? layout.lineAt(0).naturalTextWidth() : 0.0;
}

Sheet::Sheet(QPagedPaintDevice& device, QPainter& painter, QSizeF page, double margin)
    : device_(&device), painter_(painter), margin_(margin) {
    record_.page_pt = page;
    record_.pages = 1;
}

Sheet::Sheet(QPainter& painter, QSizeF page) : painter_(painter) {
    record_.page_pt = page;
    record_.pages = 1;
}

QRectF Sheet::area() const {
    return QRectF(QPointF(0.0, 0.0), record_.page_pt)
        .adjusted(margin_, margin_, -margin_, -margin_);
}

void Sheet::new_page() {
    if (device_ == nullptr) return;
    device_->newPage();
    ++record_.pages;
}

double Sheet::put(const Rich& text, int size_pt, QPointF top_left, double width) {
    QTextLayout layout(text.text(), paper_font(size_pt));
    layout.setFormats(bold_formats(text));
    const double height = set_lines(layout, size_pt, width);
    painter_.setPen(kInk);
    layout.draw(&painter_, top_left);
    for (int i = 0; i < layout.lineCount(); ++i) {
        const QTextLine line = layout.lineAt(i);
        const QRectF box(top_left.x() + line.naturalTextRect().x(),
                         top_left.y() + i * line_pitch(size_pt), line.naturalTextWidth(),
                         line_pitch(size_pt));
        note(text.text().mid(line.textStart(), line.textLength()).trimmed(), box, size_pt);
    }
    return height;
}

void Sheet::note(const QString& text, const QRectF& box, double size_pt) {
    if (text.isEmpty()) return;
    record_.texts.push_back({record_.pages, text, box, size_pt});
}

}  // namespace haylane
