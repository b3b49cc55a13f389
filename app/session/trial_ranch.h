#pragma once
// Trials of rigs from tables and from a book: compared, kept in a book, written down.

#include "app/papers/trial_words.h"
#include "core/base/problem.h"
#include "core/base/result.h"
#include "core/trials/compare_trials.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct TrialsAsked {
    std::vector<std::filesystem::path> files;  // tables (.csv) and books (.gpkg)
    std::filesystem::path keep_in;             // a book; empty = the rows are not kept
    std::filesystem::path folder;              // for the report; empty = none. Made if absent
    TrialWords words;
    bool letter = true;
};

struct TrialsReport {
    TrialComparison trials;
    Problems problems;
    int added = 0;  // rows kept
    int known = 0;  // rows that the book had
    std::vector<std::filesystem::path> files;
};

// Nothing is kept or written where no row tells of a feeding (no_trials), or where a row that is to
// be kept names a rig that the book has not (unknown_rig). Other errors: those of read_trial_file,
// read_book, keep_trials and the writers; folder_unwritable.
[[nodiscard]] Result<TrialsReport> trials_of(const TrialsAsked& asked);

// "haylane-trial/1", SI as named. Intervals are 95 %.
[[nodiscard]] std::string trial_json(const TrialComparison& trials, const TrialWords& words);

}  // namespace haylane
