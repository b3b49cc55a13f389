#pragma once
// What became of each file's points, and what its drives were cut into, added up.

#include "app/session/log_tracks.h"

#include <array>
#include <string>
#include <vector>

namespace haylane {

struct FileCounts {
    std::string file;
    std::size_t points = 0;                           // read
    std::size_t points_unused = 0;                    // of tracks too short or elsewhere
    std::size_t tracks = 0;                           // that were used; what follows is of these
    std::array<std::size_t, kDropReasons> dropped{};  // by DropReason
    std::size_t held = 0;                             // drift while standing, held in one place
    std::size_t gaps = 0;
    std::array<Driven, kMotions.size()> cut;  // by Motion
    [[nodiscard]] const Driven& of(Motion motion) const {
        return cut[static_cast<std::size_t>(motion)];
    }
};

// The counts of one track; `file` is its file.
[[nodiscard]] FileCounts counts_of(const LoggedTrack& track);
// One a file that was read, in their order.
[[nodiscard]] std::vector<FileCounts> file_counts(const LogProposal& proposal);

}  // namespace haylane
