#include "app/session/rig_speeds.h"

#include <algorithm>

namespace haylane {

Result<void> add_own_speeds(const std::filesystem::path& book, Ranch& ranch) {
    const auto stored = stored_tracks(book);
    if (!stored) return fail(stored.error());
    for (Rig& rig : ranch.rigs) {
        std::vector<TrackFigures> figures;
        sys_days newest{};
        for (const StoredTrack& track : *stored) {
            if (track.rig != rig.name) continue;
            figures.push_back(track.figures);
            newest = std::max(newest, track.date);
        }
        fill_own_speeds(figures, newest, rig);
    }
    return {};
}

Result<std::vector<RigSpeeds>> speeds_seen(const OpenRanch& open, const LogProposal& proposal) {
    const auto stored = stored_tracks(open.book);
    if (!stored) return fail(stored.error());
    const Ranch& ranch = open.checked.ranch;
    std::vector<RigSpeeds> out;
    for (std::size_t r = 0; r < ranch.rigs.size(); ++r) {
        std::vector<TrackFigures> figures;
        for (const StoredTrack& track : *stored)
            if (track.rig == ranch.rigs[r].name) figures.push_back(track.figures);
        const std::size_t accepted = figures.size();
        for (const LoggedTrack& track : proposal.tracks)
            if (track.rig == r) figures.push_back(track_figures(ranch, track.cut));
        if (figures.size() == accepted) continue;
        out.push_back({r, static_cast<int>(accepted), sum_of(figures)});
    }
    return out;
}

}  // namespace haylane
