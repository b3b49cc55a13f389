#pragma once
// Trials of rigs as a PDF: what they tell in sentences, every feeding as a dot beside its rig's
// mean, each rig's figures, pair by pair, what was written down, and how it was worked out. US
// letter or A4. Needs a Qt application object (app/papers/gui.h). Errors: those of render_paper,
// file_unwritable. Cost: linear in runs; laid out twice.

#include "app/papers/render_paper.h"
#include "app/papers/trial_words.h"

#include <string>
#include <vector>

namespace haylane {

struct TrialReportInput {
    const TrialComparison& trials;
    const std::vector<TrialRun>& runs;  // that the comparison was made of
    TrialWords words;
    std::string ranch;  // empty: not kept in a book
    bool letter = true;
};

[[nodiscard]] Result<RenderedSheet> render_trial_report(const TrialReportInput& input);
// Replaces the file.
[[nodiscard]] Result<void> write_trial_report(const std::filesystem::path& path,
                                              const TrialReportInput& input);

}  // namespace haylane
