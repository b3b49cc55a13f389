#pragma once
// Recorded drives made into feedings: read, cleaned, cut, matched to the plan, proposed; what is
// accepted enters the book, and can be taken out again.

#include "app/session/local_day.h"
#include "app/session/open_ranch.h"
#include "core/base/progress.h"
#include "core/tracks/laid_lines.h"
#include "core/tracks/match_lines.h"
#include "gis/book/track_store.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct LogRequest {
    std::vector<std::filesystem::path> files;  // and folders
    std::string herd;                          // empty = by plan, or by the pasture
    std::string rig;                           // empty = by plan, or the only one
    std::string lot;                           // empty = by plan, or by the yard
    std::optional<int> bales;                  // in all; nullopt = by plan, or by length
};

// The clock of the ranch.
[[nodiscard]] LocalDay local_day(const OpenRanch& open);

// One track as read and cut.
struct LoggedTrack {
    std::string file;
    std::string name;
    std::string hash;
    sys_days date;
    std::string from;  // local time, "07:12"
    std::string to;
    std::size_t rig = 0;  // index into the ranch's rigs, that it was cut for
    std::size_t points = 0;
    CleanTrack clean;
    std::vector<ToldMotion> told;  // that the cut goes by, the last said last
    CutTrack cut;
    std::vector<std::size_t> lines;  // of each point of the track: the line of the file
};

struct LoggedLine {
    std::size_t track = 0;
    LaidLine laid;
    std::string line_id;  // of the plan; empty = the plan knew nothing of it
    LineFit fit;          // when there is an id
};

enum class BalesFrom { plan, told, length };
[[nodiscard]] std::string_view to_string(BalesFrom from);  // "plan", "told", "length"

struct ProposedFeeding {
    FeedingEntry entry;  // what would be recorded; herd or lots are empty where not known
    std::vector<LoggedLine> lines;
    BalesFrom bales_from = BalesFrom::length;
    bool found = false;  // no plan knew of it
    double length_m = 0.0;
    double confidence = 0.0;
    std::optional<sys_days> planned_on;  // the plan's day
    std::optional<double> planned_m;     // length of the planned lines that were laid
    std::optional<double> off_m;         // from them, by length
    std::optional<double> planned_cv;    // unevenness of the pasture's winter, as planned
    std::optional<double> laid_cv;       // and as laid
    std::string not_ready;               // why it cannot be recorded; empty = it can
    [[nodiscard]] double bales() const;
};

// One file that was read.
struct LoggedFile {
    std::string file;
    std::string hash;
    std::size_t points = 0;
};

struct LogProposal {
    LogRequest request;             // that it was made for
    std::vector<LoggedFile> files;  // but those of `already`
    std::vector<LoggedTrack> tracks;
    std::vector<ProposedFeeding> feedings;
    std::vector<std::string> already;  // files whose tracks are in the book
    Problems problems;
};

// A file that cannot be read is a problem when there are others, an error when it is the only one.
// Errors: those of track_files and read_tracks; unknown_herd, unknown_rig, unknown_lot; no_rigs.
[[nodiscard]] Result<LogProposal> propose_log(const OpenRanch& open, const LogRequest& request,
                                              const Progress& progress = {});

struct LogAccepted {
    std::vector<std::string> sentences;  // one a feeding, for people
    std::string log;                     // to undo it by; empty = nothing was recorded
};
// Records those feedings that are ready, in one transaction. Errors: nothing_to_record when none
// is, those of record_tracks.
[[nodiscard]] Result<LogAccepted> accept_log(const OpenRanch& open, const LogProposal& proposal);

// Takes out what was accepted with these files, or, without files, what was accepted last. A
// sentence of what was done. Errors: nothing_to_undo, those of read_tracks and undo_tracks.
[[nodiscard]] Result<std::string> undo_log(const OpenRanch& open,
                                           const std::vector<std::filesystem::path>& files);

}  // namespace haylane
