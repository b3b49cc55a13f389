#pragma once
// The consultant's report on the ground as a PDF: a cover that answers how much, how even and where
// too much; tables and advice; a page a pasture that was fed; soil tests; what the words mean, how
// it was worked out, who says so. US letter or A4. Needs a Qt application object
// (app/papers/gui.h). Errors: those of render_paper, file_unwritable. Cost: linear in
// pictures; laid out twice.

#include "app/papers/flow.h"
#include "app/papers/ground_map.h"
#include "app/papers/ground_picture.h"
#include "app/papers/ground_words.h"
#include "app/papers/render_paper.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct GroundReportInput {
    const GroundAccount& account;
    const Ranch& ranch;
    const std::vector<GroundPicture>& pictures;  // by pasture, as in the account
    bool metric = false;
    bool letter = true;
    const GroundAccount* what_if = nullptr;  // of the same pastures; null = none
    std::string what_if_name;
};

[[nodiscard]] Result<RenderedSheet> render_ground_report(const GroundReportInput& input);
// Replaces the file.
[[nodiscard]] Result<void> write_ground_report(const std::filesystem::path& path,
                                               const GroundReportInput& input);

// The parts, in their order. For use inside app/papers only.
struct ReportPaper {
    const GroundReportInput& input;
    GroundWords words;
    QImage shade;
    int pages = 0;  // in all; 0 while they are counted

    [[nodiscard]] const GroundAccount& account() const { return input.account; }
    [[nodiscard]] const Ranch& ranch() const { return input.ranch; }
    // Provenance, what N means, units: what every map and table says under itself.
    [[nodiscard]] QString under_line(const Provenance& from) const;
};
void paint_cover(Sheet& sheet, const ReportPaper& paper);
void paint_summary(Flow& flow, const ReportPaper& paper);
void paint_advice(Flow& flow, const ReportPaper& paper);
void paint_pasture_page(Flow& flow, const ReportPaper& paper, std::size_t pasture);
void paint_change(Flow& flow, const ReportPaper& paper);
// The same figures of the history as it would have been.
void paint_what_if(Flow& flow, const ReportPaper& paper);
void paint_soil(Flow& flow, const ReportPaper& paper);
void paint_methods(Flow& flow, const ReportPaper& paper);

}  // namespace haylane
