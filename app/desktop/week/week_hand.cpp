// The part of the week's page that draws on the map and gives the plan away.

#include "app/desktop/file_names.h"
#include "app/desktop/week/day_dialogs.h"
#include "app/desktop/week/give_plan.h"
#include "app/desktop/week/week_page.h"
#include "app/desktop/week/week_words.h"
#include "core/plan/hand_lines.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QPrintDialog>
#include <QPrinter>

namespace haylane {

void WeekPage::draw_line(std::size_t feeding) {
    pick(feeding);
    show_note(tr("%1: click along the new line in the direction it is driven; double click or "
                 "Enter ends it, Backspace takes a corner back, Esc gives it up.")
                  .arg(day_and_herd(feeding))
                  .toHtmlEscaped());
    drawing_.start(DrawTool::Shape::line,
                   [this, feeding, of = std::weak_ptr(plan_)](std::optional<Polyline> drawn) {
                       show_note({});
                       if (!drawn || !plan_ || plan_ != of.lock()) return;
                       const auto moved = plan_->mover->move(feeding, {*drawn});
                       moved ? lay_at(feeding, {*drawn}, *moved) : emit failed(moved.error());
                   });
}

void WeekPage::draw_closed() {
    if (!ranch_) return;
    show_note(tr("Click round the ground to be closed to hay; double click or Enter ends it, "
                 "Backspace takes a corner back, Esc gives it up.")
                  .toHtmlEscaped());
    drawing_.start(DrawTool::Shape::area, [this](std::optional<Polyline> drawn) {
        show_note({});
        if (!drawn || !ranch_) return;
        const Ranch& ranch = ranch_->open.checked.ranch;
        const auto pasture = pasture_under(ranch, {*drawn});
        CloseDialog dialog(asked_->request().from, pasture ? ranch[*pasture].name : std::string(),
                           this);
        if (dialog.exec() == QDialog::Accepted)
            close_ground({Polygon{*drawn, {}}}, dialog.request());
    });
}

void WeekPage::save_sheet() {
    const QString beside = QFileInfo(to_text(ranch_->open.book)).absolutePath();
    const QString chosen = QFileDialog::getSaveFileName(
        this, tr("Save the week's sheet"), QDir(beside).filePath("week-sheet.pdf"), "PDF (*.pdf)");
    if (chosen.isEmpty()) return;
    const auto written = write_sheet(*plan_, to_path(chosen));
    written ? emit said({tr("Saved %1.").arg(chosen)}) : emit failed(written.error());
}

void WeekPage::save_lines() {
    const QString beside = QFileInfo(to_text(ranch_->open.book)).absolutePath();
    const QString chosen = QFileDialog::getSaveFileName(
        this, tr("Save the feed lines"), QDir(beside).filePath("lines.gpx"),
        "GPX (*.gpx);;GeoJSON (*.geojson);;KML (*.kml)");
    if (chosen.isEmpty()) return;
    const auto written = write_lines(*plan_, to_path(chosen));
    written ? emit said({tr("Saved %1.").arg(chosen)}) : emit failed(written.error());
}

void WeekPage::print_sheet() {
    QPrinter printer(QPrinter::HighResolution);
    printer.setFullPage(true);
    printer.setDocName(tr("Week sheet"));
    QPrintDialog dialog(&printer, this);
    if (dialog.exec() != QDialog::Accepted) return;
    const auto printed = haylane::print_sheet(*plan_, printer);
    if (!printed) emit failed(printed.error());
}

}  // namespace haylane
