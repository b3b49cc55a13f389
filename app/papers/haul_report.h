#pragma once
// The haul account as a PDF: what a head and day cost, cost a ton against distance as a chart, yard
// by pasture, rig by rig, what-ifs, where to stack, and what it was reckoned with. US letter or A4.
// Needs a Qt application object (app/papers/gui.h). Errors: those of render_paper,
// file_unwritable. Cost: linear in trips; laid out twice.

#include "app/papers/haul_words.h"
#include "app/papers/render_paper.h"

#include <string>
#include <vector>

namespace haylane {

struct HaulReportInput {
    const HaulAccount& account;
    const Ranch& ranch;
    const std::vector<HaulWhatIf>& what_ifs;
    const std::vector<MachineOffer>& offers;
    const StackPlaces* stacks = nullptr;  // null: why_no_stacks says why
    std::string why_no_stacks;
    const std::vector<Assumption>& coefficients;
    bool metric = false;
    bool letter = true;
};

[[nodiscard]] Result<RenderedSheet> render_haul_report(const HaulReportInput& input);
// Replaces the file.
[[nodiscard]] Result<void> write_haul_report(const std::filesystem::path& path,
                                             const HaulReportInput& input);

}  // namespace haylane
