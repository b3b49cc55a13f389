#pragma once
// Tracks whose feedings were accepted, kept in the book with what they showed, so that none is
// taken twice and all can be undone.

#include "core/base/day.h"
#include "core/base/result.h"
#include "core/tracks/own_speeds.h"
#include "gis/book/record_feedings.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct StoredTrack {
    std::string log;   // the same for all tracks accepted together
    std::string name;  // of the track; may be empty
    std::string file;
    std::string hash;  // of the file's points
    std::string rig;
    sys_days date;  // local
    TrackFigures figures;
    Polyline path;                      // ranch frame, for the map; simplified to 1 m
    std::vector<std::string> feedings;  // uuids; filled when stored
    bool found = false;                 // some of them stood in no plan
};

struct TracksRecorded {
    FeedingsRecorded feedings;
    std::string log;
};

// Feedings and their tracks, all or nothing. Errors: those of record_feedings.
[[nodiscard]] Result<TracksRecorded> record_tracks(const std::filesystem::path& book,
                                                   const std::vector<FeedingEntry>& entries,
                                                   std::vector<StoredTrack> tracks);
// Every track of the book, oldest accepted first. Opens the book read-only; a book from before
// tracks were kept has none.
[[nodiscard]] Result<std::vector<StoredTrack>> stored_tracks(const std::filesystem::path& book);
// Takes a log's tracks and feedings out again and gives the bales back. Error: unknown_log.
[[nodiscard]] Result<void> undo_tracks(const std::filesystem::path& book, const std::string& log);

}  // namespace haylane
