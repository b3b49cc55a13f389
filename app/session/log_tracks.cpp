// Reading and cutting; log_feedings.cpp makes feedings of the laid lines.
#include "app/session/log_tracks.h"

#include "app/session/find_named.h"
#include "app/session/log_feedings.h"
#include "core/geometry/simplify.h"
#include "gis/tracks/read_tracks.h"
#include "gis/tracks/track_files.h"

#include <algorithm>
#include <limits>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

namespace fs = std::filesystem;

constexpr double kNearRanch_m = 5000.0;
constexpr double kStoredCourse_m = 1.0;  // a third of what a fix is good to

Error unknown(const char* code, const char* what, const std::string& name, const char* option) {
    return {code, fmt::format("There is no {} called {}.", what, name), option,
            "Write the name as it stands in the book; haylane check lists what is there."};
}

std::optional<Error> bad_request(const Ranch& ranch, const LogRequest& request) {
    if (!request.herd.empty() && !find_named(ranch.herds, request.herd))
        return unknown("unknown_herd", "herd", request.herd, "--herd");
    if (!request.rig.empty() && !find_named(ranch.rigs, request.rig))
        return unknown("unknown_rig", "rig", request.rig, "--rig");
    if (!request.lot.empty() && !find_named(ranch.lots, request.lot))
        return unknown("unknown_lot", "hay lot", request.lot, "--lot");
    if (ranch.rigs.empty())
        return Error{"no_rigs", "The ranch has no rig, so no feeding speed is known.", "rigs",
                     "Add rigs.csv to the ranch folder and make the book anew."};
    return std::nullopt;
}

void append(Problems& all, const Problems& more) {
    all.insert(all.end(), more.begin(), more.end());
}

class Proposer {
  public:
    Proposer(const OpenRanch& open, const LogRequest& request, const Progress& progress)
        : open_(open),
          ranch_(open.checked.ranch),
          request_(request),
          progress_(progress),
          local_(local_day(open)) {
        for (const Pasture& pasture : ranch_.pastures) {
            const Box box = box_of(pasture.shape);
            near_.add({box.min_x, box.min_y});
            near_.add({box.max_x, box.max_y});
        }
        middle_ = {0.5 * (near_.min_x + near_.max_x), 0.5 * (near_.min_y + near_.max_y)};
        near_ = near_.grown_by(kNearRanch_m);
    }

    Result<LogProposal> run() {
        if (auto error = bad_request(ranch_, request_)) return fail(std::move(*error));
        out_.request = request_;
        const auto files = track_files(request_.files);
        if (!files) return fail(files.error());
        append(out_.problems, files->problems);
        const auto stored = stored_tracks(open_.book);
        if (!stored) return fail(stored.error());
        for (const StoredTrack& track : *stored) known_.insert(track.hash);
        auto days = kept_days(open_.book);
        if (!days) return fail(days.error());
        days_ = std::move(*days);
        for (std::size_t i = 0; i < files->files.size(); ++i) {
            progress_("reading tracks",
                      static_cast<double>(i) / static_cast<double>(files->files.size()));
            if (progress_.stopped()) break;
            if (auto error = read_file(files->files[i])) {
                if (files->files.size() == 1) return fail(std::move(*error));
                out_.problems.push_back({error->code, Severity::error, error->where,
                                         error->what + "; the file was not used", error->remedy});
            }
        }
        if (!out_.tracks.empty()) append(out_.problems, local_.problems());
        LogFeedings(open_, request_, days_, local_).propose(out_);
        return std::move(out_);
    }

  private:
    std::optional<Error> read_file(const fs::path& file) {
        auto read = read_tracks(file);
        if (!read) return read.error();
        append(out_.problems, read->problems);
        if (read->points() == 0) {
            out_.files.push_back({read->file, read->hash, 0});
            return std::nullopt;
        }
        if (!known_.insert(read->hash).second) {
            out_.already.push_back(read->file);
            return std::nullopt;
        }
        out_.files.push_back({read->file, read->hash, read->points()});
        for (RecordedTrack& track : read->tracks) take_track(*read, track);
        return std::nullopt;
    }

    void take_track(const RecordedFile& file, RecordedTrack& track) {
        LoggedTrack out{.file = file.file, .name = track.name, .hash = file.hash};
        out.points = track.points.size();
        out.lines.reserve(track.points.size());
        for (const GpxPoint& point : track.points) out.lines.push_back(point.line);
        const std::vector<TrackPoint> points = in_frame(track, open_.frame);
        track.points = {};
        out.clean = clean_track(points);
        const std::string where = file.where(out.lines.front());
        if (out.clean.fixes.size() < 2) {
            // Without any times it has been said already.
            if (out.clean.count(DropReason::no_time) < out.points)
                out_.problems.push_back(
                    {"track_too_short", Severity::warning, where,
                     "fewer than two of the track's points can be used; it was not used",
                     "record it again while moving"});
            return;
        }
        if (far_away(out, where)) return;
        const double start_s = out.clean.fixes.front().time_s;
        out.date = local_.day(start_s);
        out.from = local_.clock(start_s);
        out.to = local_.clock(out.clean.fixes.back().time_s);
        out.rig = rig_for(out);
        out.cut = cut_track(ranch_, out.clean, drive_speeds(ranch_, ranch_.rigs[out.rig]));
        out_.tracks.push_back(std::move(out));
    }

    // A drive on other ground is no feeding of this ranch.
    bool far_away(const LoggedTrack& track, const std::string& where) {
        double nearest = std::numeric_limits<double>::infinity();
        for (const Fix& fix : track.clean.fixes) {
            if (near_.contains(fix.at)) return false;
            nearest = std::min(nearest, distance_m(fix.at, middle_));
        }
        out_.problems.push_back(
            {"track_elsewhere", Severity::warning, where,
             fmt::format("the track comes no nearer than {:.0f} km to the middle of the ranch; it "
                         "was not used",
                         nearest / 1000.0),
             "give the tracks of this ranch"});
        return true;
    }

    // The rig asked for, else the one planned that day, else the first.
    std::size_t rig_for(const LoggedTrack& track) {
        if (!request_.rig.empty()) return *find_named(ranch_.rigs, request_.rig);
        for (const KeptDay& day : days_) {
            if (day.planned.date != track.date) continue;
            if (const auto rig = find_named(ranch_.rigs, day.planned.rig)) return *rig;
        }
        if (ranch_.rigs.size() > 1)
            out_.problems.push_back(
                {"rig_assumed", Severity::warning, track.file,
                 fmt::format("nothing was planned on {}; the track was read as if {} had been "
                             "driven",
                             format_day(track.date), ranch_.rigs[0].name),
                 "say which with --rig"});
        return 0;
    }

    const OpenRanch& open_;
    const Ranch& ranch_;
    const LogRequest& request_;
    const Progress& progress_;
    LocalDay local_;
    Box near_;      // the pastures and what lies round them
    Point middle_;  // of the pastures
    LogProposal out_;
    std::vector<KeptDay> days_;
    std::set<std::string> known_;
};

// A track's whole course, with no more points than a map needs.
Polyline course(const CutTrack& cut) {
    Polyline all;
    for (const Piece& piece : cut.pieces)
        all.insert(all.end(), piece.path.begin(), piece.path.end());
    return simplified(all, kStoredCourse_m);
}

}  // namespace

LocalDay local_day(const OpenRanch& open) {
    return {open.checked.ranch.settings.time_zone, open.frame.centre().lon_deg};
}

std::string_view to_string(BalesFrom from) {
    switch (from) {
        case BalesFrom::plan:
            return "plan";
        case BalesFrom::told:
            return "told";
        case BalesFrom::length:
            return "length";
    }
    return "length";
}

double ProposedFeeding::bales() const {
    double sum = 0.0;
    for (const LotBales& draw : entry.lots) sum += draw.bales;
    return sum;
}

Result<LogProposal> propose_log(const OpenRanch& open, const LogRequest& request,
                                const Progress& progress) {
    return Proposer(open, request, progress).run();
}

Result<LogAccepted> accept_log(const OpenRanch& open, const LogProposal& proposal) {
    const Ranch& ranch = open.checked.ranch;
    std::vector<FeedingEntry> entries;
    std::vector<bool> used(proposal.tracks.size(), false);
    std::vector<bool> found(proposal.tracks.size(), false);
    LogAccepted out;
    for (const ProposedFeeding& feeding : proposal.feedings) {
        if (!feeding.not_ready.empty()) continue;
        entries.push_back(feeding.entry);
        std::vector<std::string> lots;
        for (const LotBales& draw : feeding.entry.lots)
            lots.push_back(fmt::format("{:g} {}", draw.bales, draw.lot));
        out.sentences.push_back(fmt::format("Recorded {}: {} in {}, {}.",
                                            format_day(feeding.entry.date), feeding.entry.herd,
                                            feeding.entry.pasture, fmt::join(lots, " and ")));
        for (const LoggedLine& line : feeding.lines) {
            used[line.track] = true;
            found[line.track] = found[line.track] || feeding.found;
        }
    }
    if (entries.empty())
        return fail({"nothing_to_record", "No feeding in these tracks is ready to be recorded.",
                     open.book.string(), "Look at the list for what each lacks."});
    std::vector<StoredTrack> tracks;
    for (std::size_t i = 0; i < proposal.tracks.size(); ++i) {
        if (!used[i]) continue;
        const LoggedTrack& track = proposal.tracks[i];
        tracks.push_back({.name = track.name,
                          .file = track.file,
                          .hash = track.hash,
                          .rig = ranch.rigs[track.rig].name,
                          .date = track.date,
                          .figures = track_figures(ranch, track.cut),
                          .path = course(track.cut),
                          .found = found[i]});
    }
    auto recorded = record_tracks(open.book, entries, std::move(tracks));
    if (!recorded) return fail(recorded.error());
    for (const Problem& problem : recorded->feedings.problems)
        out.sentences.push_back(fmt::format("Note: {}; {}.", problem.text, problem.remedy));
    out.log = recorded->log;
    return out;
}

Result<std::string> undo_log(const OpenRanch& open, const std::vector<fs::path>& files) {
    const auto stored = stored_tracks(open.book);
    if (!stored) return fail(stored.error());
    const StoredTrack* last = nullptr;
    if (files.empty()) {
        if (!stored->empty()) last = &stored->back();
    } else {
        const auto read = read_tracks(files.front());
        if (!read) return fail(read.error());
        for (const StoredTrack& track : *stored)
            if (track.hash == read->hash) last = &track;
    }
    if (last == nullptr)
        return fail({"nothing_to_undo",
                     files.empty() ? "No accepted track is in the book."
                                   : fmt::format("{} is not among the accepted tracks.",
                                                 files.front().filename().string()),
                     open.book.string(), "Nothing was changed."});
    std::vector<std::string> names;
    for (const StoredTrack& track : *stored)
        if (track.log == last->log) names.push_back(track.file);
    names.erase(std::unique(names.begin(), names.end()), names.end());
    const std::size_t rows = last->feedings.size();
    const auto undone = undo_tracks(open.book, last->log);
    if (!undone) return fail(undone.error());
    return fmt::format("Taken out again: {} {} from {}. Their bales are back in the stack.", rows,
                       rows == 1 ? "feeding" : "feedings", fmt::join(names, ", "));
}

}  // namespace haylane
