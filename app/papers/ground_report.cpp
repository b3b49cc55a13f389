#include "app/papers/ground_report.h"

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

}  // namespace

QString ReportPaper::under_line(const Provenance& from) const {
    QString text = GroundWords::records(from) + QStringLiteral(".");
    if (!from.shows_numbers())
        text += QStringLiteral(
            " Over a quarter is recalled or assumed, so classes stand in place of numbers.");
    return text;
}

Result<RenderedSheet> render_ground_report(const GroundReportInput& input) {
    const GroundWords words(input.ranch.settings, input.metric);
    const QImage shade = input.ranch.terrain ? hillshade(*input.ranch.terrain) : QImage();
    const PaperSetup setup{title_of(input), "ground report", "ground-report.pdf", kMargin,
                           input.letter};
    return render_paper(setup, [&](Sheet& sheet, int pages) {
        const ReportPaper paper{input, words, shade, pages};
        paint_cover(sheet, paper);
        paint_rest(sheet, paper);
    });
}

Result<void> write_ground_report(const std::filesystem::path& path,
                                 const GroundReportInput& input) {
    return write_paper(path, render_ground_report(input));
}

}  // namespace haylane
