#include "app/papers/week_sheet.h"

#include "app/papers/back_pages.h"
#include "app/papers/front_page.h"
#include "app/papers/map_painter.h"
#include "app/papers/words.h"

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

struct Paper {
    PaperSetup setup;
    PaintPaper paint;
};

// What is referred to must outlive it.
Paper week_paper(const PlanResult& result, const Ranch& ranch, const WeekSheetOptions& options) {
    const QImage shade = ranch.terrain ? hillshade(*ranch.terrain) : QImage();
    PaperSetup setup{QStringLiteral("Week sheet, %1, from %2")
                         .arg(QString::fromStdString(result.plan.ranch),
                              QString::fromStdString(format_day(result.plan.from))),
                     "week sheet", "week-sheet.pdf", kMargin, options.letter};
    return {std::move(setup),
            [&result, &ranch, shade, metric = options.metric](Sheet& sheet, int pages) {
                const SheetInput input{result.plan, ranch, shade, metric, pages};
                const std::vector<HerdRows> later = paint_front_page(sheet, input);
                paint_rest(sheet, result, input, later);
            }};
}

}  // namespace

Result<RenderedSheet> render_week_sheet(const PlanResult& result, const Ranch& ranch,
                                        const WeekSheetOptions& options) {
    const Paper paper = week_paper(result, ranch, options);
    return render_paper(paper.setup, paper.paint);
}

Result<void> print_week_sheet(QPagedPaintDevice& device, const PlanResult& result,
                              const Ranch& ranch, const WeekSheetOptions& options) {
    const Paper paper = week_paper(result, ranch, options);
    return print_paper(device, paper.setup, paper.paint);
}

Result<void> write_week_sheet(const std::filesystem::path& path, const PlanResult& result,
                              const Ranch& ranch, const WeekSheetOptions& options) {
    return write_paper(path, render_week_sheet(result, ranch, options));
}

}  // namespace haylane
