#pragma once
// How fast each rig was really driven, by the tracks that the book keeps and those of a log.

#include "app/session/log_tracks.h"

#include <vector>

namespace haylane {

// Puts the speeds that the book's tracks show into the rigs' own figures.
[[nodiscard]] Result<void> add_own_speeds(const std::filesystem::path& book, Ranch& ranch);

// What all tracks of a rig show, offered to be its own figures. What is in use now stands in the
// ranch: Rig::own.
struct RigSpeeds {
    std::size_t rig = 0;  // index into the ranch's rigs
    int accepted = 0;     // tracks that the book keeps
    FiguresSum seen;      // those and the log's
};
// The rigs that the log's tracks were cut for, in the ranch's order. Ask before they are accepted:
// after it they would be counted twice. Errors: those of stored_tracks.
[[nodiscard]] Result<std::vector<RigSpeeds>> speeds_seen(const OpenRanch& open,
                                                         const LogProposal& proposal);

}  // namespace haylane
