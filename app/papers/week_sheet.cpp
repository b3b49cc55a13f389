// One painter unit is one point: the PDF is written at 72 units an inch, where nothing is rounded.

#include "app/papers/week_sheet.h"

#include "app/papers/back_pages.h"
#include "app/papers/front_page.h"
#include "app/papers/gui.h"
#include "app/papers/map_painter.h"
#include "app/papers/words.h"
#include "gis/exchange/write_text_file.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>

namespace haylane {
namespace {

constexpr double kMargin = 22.0;

QString foot_line(const SheetInput& input) {
    return QString::fromStdString(input.plan.ranch + ", " + std::to_string(input.plan.days) +
                                  " days from " + words::short_date(input.plan.from) + " " +
                                  format_day(input.plan.from).substr(0, 4) +
                                  (input.metric ? ". Metric units" : ". US units"));
}

void paint_rest(Sheet& sheet, const PlanResult& result, const SheetInput& input,
                const std::vector<HerdRows>& later) {
    Flow flow(sheet, foot_line(input), input.pages);
    if (!later.empty()) flow.heading(QStringLiteral("More rows of page 1"));
    for (const HerdRows& herd : later) {
        flow.need(height_of_herd_rows(herd, 12, flow.width()));
        flow.gap(paint_herd_rows(sheet, herd, 12, {flow.left(), flow.y()}, flow.width()) + 4.0);
    }
    paint_close_ups(flow, input);
    paint_cards(flow, input);
    paint_evenness(flow, result, input);
    paint_targets(flow, input);
    paint_hay_left(flow, input);
    paint_problems(flow, input);
    paint_assumptions(flow, input);
}

void set_up(QPdfWriter& writer, const PlanResult& result, const WeekSheetOptions& options) {
    writer.setResolution(72);
    const QPageSize size(options.letter ? QPageSize::Letter : QPageSize::A4);
    writer.setPageLayout(QPageLayout(size, QPageLayout::Portrait, QMarginsF(0.0, 0.0, 0.0, 0.0)));
    writer.setTitle(QStringLiteral("Week sheet, %1, from %2")
                        .arg(QString::fromStdString(result.plan.ranch),
                             QString::fromStdString(format_day(result.plan.from))));
    writer.setCreator(QStringLiteral("Haylane"));
}

Result<RenderedSheet> render_once(const PlanResult& result, const SheetInput& input,
                                  const WeekSheetOptions& options) {
    RenderedSheet rendered;
    QBuffer buffer(&rendered.pdf);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        set_up(writer, result, options);
        QPainter painter;
        if (!painter.begin(&writer)) {
            return fail({"no_painter", "The week sheet could not be painted.", "week-sheet.pdf",
                         "Install the fonts package that scripts/install_packages names."});
        }
        painter.setRenderHint(QPainter::Antialiasing);
        const QSizeF page(writer.pageLayout().fullRect(QPageLayout::Point).size());
        Sheet sheet(writer, painter, page, kMargin);
        const std::vector<HerdRows> later = paint_front_page(sheet, input);
        paint_rest(sheet, result, input, later);
        rendered.record = sheet.record();
    }
    return rendered;
}

}  // namespace

Result<RenderedSheet> render_week_sheet(const PlanResult& result, const Ranch& ranch,
                                        const WeekSheetOptions& options) {
    if (!gui_is_ready()) {
        return fail({"no_application", "The week sheet needs fonts, and they are not loaded.",
                     "week-sheet.pdf", "Start the program's Gui before papers are written."});
    }
    const QImage shade = ranch.terrain ? hillshade(*ranch.terrain) : QImage();
    SheetInput input{result.plan, ranch, shade, options.metric, 0};
    const auto counted = render_once(result, input, options);
    if (!counted) return fail(counted.error());
    input.pages = counted->record.pages;
    return render_once(result, input, options);
}

Result<void> write_week_sheet(const std::filesystem::path& path, const PlanResult& result,
                              const Ranch& ranch, const WeekSheetOptions& options) {
    const auto rendered = render_week_sheet(result, ranch, options);
    if (!rendered) return fail(rendered.error());
    const QByteArray& pdf = rendered->pdf;
    return write_text_file(path, {pdf.constData(), static_cast<std::size_t>(pdf.size())});
}

}  // namespace haylane
