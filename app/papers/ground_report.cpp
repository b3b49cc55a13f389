// One painter unit is one point, as in the week sheet; laid out once to count pages, then for good.
#include "app/papers/ground_report.h"

#include "app/papers/gui.h"
#include "gis/exchange/write_text_file.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>

namespace haylane {
namespace {

constexpr double kMargin = 36.0;

QString title_of(const GroundReportInput& input) {
    return QStringLiteral("Ground report, %1, %2")
        .arg(QString::fromStdString(input.ranch.name),
             QString::fromStdString(input.account.span.name));
}

void paint_rest(Sheet& sheet, const ReportPaper& paper) {
    Flow flow(sheet, title_of(paper.input), paper.pages);
    paint_summary(flow, paper);
    paint_advice(flow, paper);
    for (std::size_t p = 0; p < paper.account().pastures.size(); ++p) {
        if (paper.account().pastures[p].all_ledger.feedings > 0) paint_pasture_page(flow, paper, p);
    }
    paint_change(flow, paper);
    paint_what_if(flow, paper);
    paint_soil(flow, paper);
    paint_methods(flow, paper);
}

Result<RenderedSheet> render_once(const ReportPaper& paper) {
    RenderedSheet rendered;
    QBuffer buffer(&rendered.pdf);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setResolution(72);
        const QPageSize size(paper.input.letter ? QPageSize::Letter : QPageSize::A4);
        writer.setPageLayout(
            QPageLayout(size, QPageLayout::Portrait, QMarginsF(0.0, 0.0, 0.0, 0.0)));
        writer.setTitle(title_of(paper.input));
        writer.setCreator(QStringLiteral("Haylane"));
        QPainter painter;
        if (!painter.begin(&writer))
            return fail({"no_painter", "The ground report could not be painted.",
                         "ground-report.pdf",
                         "Install the fonts package that scripts/install_packages names."});
        painter.setRenderHint(QPainter::Antialiasing);
        const QSizeF page(writer.pageLayout().fullRect(QPageLayout::Point).size());
        Sheet sheet(writer, painter, page, kMargin);
        paint_cover(sheet, paper);
        paint_rest(sheet, paper);
        rendered.record = sheet.record();
    }
    return rendered;
}

}  // namespace

QString ReportPaper::under_line(const Provenance& from) const {
    QString text = GroundWords::records(from) + QStringLiteral(".");
    if (!from.shows_numbers())
        text += QStringLiteral(
            " Over a quarter is recalled or assumed, so classes stand in place of numbers.");
    return text;
}

Result<RenderedSheet> render_ground_report(const GroundReportInput& input) {
    if (!gui_is_ready())
        return fail({"no_application", "The ground report needs fonts, and they are not loaded.",
                     "ground-report.pdf", "Start the program's Gui before papers are written."});
    ReportPaper paper{input, GroundWords(input.ranch.settings, input.metric),
                      input.ranch.terrain ? hillshade(*input.ranch.terrain) : QImage(), 0};
    const auto counted = render_once(paper);
    if (!counted) return fail(counted.error());
    paper.pages = counted->record.pages;
    return render_once(paper);
}

Result<void> write_ground_report(const std::filesystem::path& path,
                                 const GroundReportInput& input) {
    const auto rendered = render_ground_report(input);
    if (!rendered) return fail(rendered.error());
    return write_text_file(
        path, {rendered->pdf.constData(), static_cast<std::size_t>(rendered->pdf.size())});
}

}  // namespace haylane
