#include "app/session/correct_cut.h"

#include "app/session/log_feedings.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

Result<LogProposal> correct_cut(const OpenRanch& open, LogProposal proposal, std::size_t track,
                                double from_s, double to_s, Motion motion) {
    if (track >= proposal.tracks.size())
        return fail(
            {"unknown_track",
             fmt::format("There is no track {}; the log has {}.", track, proposal.tracks.size()),
             "correct_cut", "Choose one of the log's tracks."});
    const Ranch& ranch = open.checked.ranch;
    LoggedTrack& one = proposal.tracks[track];
    const ToldMotion told{from_s, to_s, motion};
    const auto& fixes = one.clean.fixes;
    if (std::none_of(fixes.begin(), fixes.end(),
                     [&told](const Fix& fix) { return told.holds(fix.time_s); }))
        return fail(
            {"told_nothing", "The track has no point in the time that was told.", one.file,
             fmt::format("It runs from {} to {}; tell a time within it.", one.from, one.to)});
    auto days = kept_days(open.book);
    if (!days) return fail(days.error());
    one.told.push_back(told);
    one.cut = cut_track(ranch, one.clean, drive_speeds(ranch, ranch.rigs[one.rig]), one.told);
    const LocalDay local = local_day(open);
    LogFeedings(open, proposal.request, *days, local).propose(proposal);
    return proposal;
}

}  // namespace haylane
