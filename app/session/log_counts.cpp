#include "app/session/log_counts.h"

namespace haylane {

namespace {

void add(const FileCounts& one, FileCounts& sum) {
    sum.tracks += one.tracks;
    for (std::size_t r = 0; r < kDropReasons; ++r) sum.dropped[r] += one.dropped[r];
    sum.held += one.held;
    sum.gaps += one.gaps;
    for (std::size_t m = 0; m < sum.cut.size(); ++m) {
        sum.cut[m].length_m += one.cut[m].length_m;
        sum.cut[m].time_s += one.cut[m].time_s;
    }
}

}  // namespace

FileCounts counts_of(const LoggedTrack& track) {
    FileCounts out;
    out.file = track.file;
    out.points = track.points;
    out.tracks = 1;
    out.dropped = track.clean.counts;
    out.held = track.cut.held_fixes;
    out.gaps = track.clean.gaps.size();
    for (const Motion motion : kMotions)
        out.cut[static_cast<std::size_t>(motion)] = {track.cut.length_m(motion),
                                                     track.cut.time_s(motion)};
    return out;
}

std::vector<FileCounts> file_counts(const LogProposal& proposal) {
    std::vector<FileCounts> out;
    for (const LoggedFile& file : proposal.files) {
        FileCounts sum;
        sum.file = file.file;
        sum.points = sum.points_unused = file.points;
        for (const LoggedTrack& track : proposal.tracks) {
            if (track.hash != file.hash) continue;
            add(counts_of(track), sum);
            sum.points_unused -= track.points;
        }
        out.push_back(std::move(sum));
    }
    return out;
}

}  // namespace haylane
