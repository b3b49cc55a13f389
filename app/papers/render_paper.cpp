// The PDF is written at 72 units an inch, where nothing is rounded.
#include "app/papers/render_paper.h"

#include "app/papers/gui.h"
#include "gis/exchange/write_text_file.h"

#include <optional>

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>
#include <fmt/format.h>

namespace haylane {

namespace {

constexpr int kPointsAnInch = 72;

QPageLayout layout_of(const PaperSetup& setup) {
    const QPageSize size(setup.letter ? QPageSize::Letter : QPageSize::A4);
    return {size, QPageLayout::Portrait, QMarginsF(0.0, 0.0, 0.0, 0.0)};
}

// `dots`: of the device, an inch.
Result<SheetRecord> paint_on(QPagedPaintDevice& device, double dots, const PaperSetup& setup,
                             int pages, const PaintPaper& paint) {
    QPainter painter;
    if (!painter.begin(&device))
        return fail({"no_painter", fmt::format("The {} could not be painted.", setup.name),
                     setup.file, "Install the fonts package that scripts/install_packages names."});
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(dots / kPointsAnInch, dots / kPointsAnInch);
    const QSizeF page(device.pageLayout().fullRect(QPageLayout::Point).size());
    Sheet sheet(device, painter, page, setup.margin_pt);
    paint(sheet, pages);
    return sheet.record();
}

Result<RenderedSheet> render_once(const PaperSetup& setup, int pages, const PaintPaper& paint) {
    RenderedSheet rendered;
    QBuffer buffer(&rendered.pdf);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer(&buffer);
    writer.setResolution(kPointsAnInch);
    writer.setPageLayout(layout_of(setup));
    writer.setTitle(setup.title);
    writer.setCreator(QStringLiteral("Haylane"));
    auto record = paint_on(writer, kPointsAnInch, setup, pages, paint);
    if (!record) return fail(record.error());
    rendered.record = std::move(*record);
    return rendered;
}

std::optional<Error> not_ready(const PaperSetup& setup) {
    if (!gui_is_ready())
        return Error{"no_application",
                     fmt::format("The {} needs fonts, and they are not loaded.", setup.name),
                     setup.file, "Start the program's Gui before papers are written."};
    if (!font_is_found())
        return Error{"no_fonts",
                     fmt::format("The {} needs a font, and this machine has none.", setup.name),
                     setup.file, "Install a font package, for instance fonts-dejavu-core."};
    return std::nullopt;
}

}  // namespace

Result<RenderedSheet> render_paper(const PaperSetup& setup, const PaintPaper& paint) {
    if (auto error = not_ready(setup)) return fail(std::move(*error));
    const auto counted = render_once(setup, 0, paint);
    if (!counted) return fail(counted.error());
    return render_once(setup, counted->record.pages, paint);
}

Result<void> print_paper(QPagedPaintDevice& device, const PaperSetup& setup,
                         const PaintPaper& paint) {
    const auto counted = render_paper(setup, paint);
    if (!counted) return fail(counted.error());
    device.setPageLayout(layout_of(setup));
    const auto printed =
        paint_on(device, device.logicalDpiX(), setup, counted->record.pages, paint);
    if (!printed) return fail(printed.error());
    return {};
}

Result<void> write_paper(const std::filesystem::path& path, const Result<RenderedSheet>& rendered) {
    if (!rendered) return fail(rendered.error());
    return write_text_file(
        path, {rendered->pdf.constData(), static_cast<std::size_t>(rendered->pdf.size())});
}

}  // namespace haylane
