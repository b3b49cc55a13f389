#pragma once
// Makes a PDF of what a paper paints: one painter unit is one point, laid out once to count pages
// and once for good.

#include "app/papers/sheet.h"
#include "core/base/result.h"

#include <filesystem>
#include <functional>

#include <QByteArray>
#include <QPagedPaintDevice>

namespace haylane {

struct RenderedSheet {
    QByteArray pdf;
    SheetRecord record;  // every line of text and its place
};

struct PaperSetup {
    QString title;
    const char* name = "";  // "week sheet", for errors
    const char* file = "";  // "week-sheet.pdf"
    double margin_pt = 36.0;
    bool letter = true;  // A4 otherwise
};

using PaintPaper = std::function<void(Sheet& sheet, int pages)>;

// `paint` is told how many pages there are, 0 while they are counted. Errors: no_application,
// no_fonts, no_painter.
[[nodiscard]] Result<RenderedSheet> render_paper(const PaperSetup& setup, const PaintPaper& paint);
// The same on a printer, whose page size is set to the paper's. Errors: as above.
[[nodiscard]] Result<void> print_paper(QPagedPaintDevice& device, const PaperSetup& setup,
                                       const PaintPaper& paint);
// Replaces the file. Errors: that of `rendered`, file_unwritable.
[[nodiscard]] Result<void> write_paper(const std::filesystem::path& path,
                                       const Result<RenderedSheet>& rendered);

}  // namespace haylane
