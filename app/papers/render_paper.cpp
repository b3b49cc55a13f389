// The PDF is written at 72 units an inch, where nothing is rounded.
#include "app/papers/render_paper.h"

#include "app/papers/gui.h"
#include "gis/exchange/write_text_file.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>
#include <fmt/format.h>

namespace haylane {

namespace {

Result<RenderedSheet> render_once(const PaperSetup& setup, int pages,
                                  const std::function<void(Sheet&, int)>& paint) {
    RenderedSheet rendered;
    QBuffer buffer(&rendered.pdf);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setResolution(72);
        const QPageSize size(setup.letter ? QPageSize::Letter : QPageSize::A4);
        writer.setPageLayout(
            QPageLayout(size, QPageLayout::Portrait, QMarginsF(0.0, 0.0, 0.0, 0.0)));
        writer.setTitle(setup.title);
        writer.setCreator(QStringLiteral("Haylane"));
        QPainter painter;
        if (!painter.begin(&writer))
            return fail({"no_painter", fmt::format("The {} could not be painted.", setup.name),
                         setup.file,
                         "Install the fonts package that scripts/install_packages names."});
        painter.setRenderHint(QPainter::Antialiasing);
        const QSizeF page(writer.pageLayout().fullRect(QPageLayout::Point).size());
        Sheet sheet(writer, painter, page, setup.margin_pt);
        paint(sheet, pages);
        rendered.record = sheet.record();
    }
    return rendered;
}

}  // namespace

Result<RenderedSheet> render_paper(const PaperSetup& setup,
                                   const std::function<void(Sheet& sheet, int pages)>& paint) {
    if (!gui_is_ready())
        return fail({"no_application",
                     fmt::format("The {} needs fonts, and they are not loaded.", setup.name),
                     setup.file, "Start the program's Gui before papers are written."});
    if (!font_is_found())
        return fail({"no_fonts",
                     fmt::format("The {} needs a font, and this machine has none.", setup.name),
                     setup.file, "Install a font package, for instance fonts-dejavu-core."});
    const auto counted = render_once(setup, 0, paint);
    if (!counted) return fail(counted.error());
    return render_once(setup, counted->record.pages, paint);
}

Result<void> write_paper(const std::filesystem::path& path, const Result<RenderedSheet>& rendered) {
    if (!rendered) return fail(rendered.error());
    return write_text_file(
        path, {rendered->pdf.constData(), static_cast<std::size_t>(rendered->pdf.size())});
}

}  // namespace haylane
