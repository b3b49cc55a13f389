#pragma once
// A cut put right by someone who knows what the rig did.

#include "app/session/log_tracks.h"

namespace haylane {

// The proposal made again with the track's time from `from_s` to `to_s` (seconds since 1970 UTC,
// both included) held to be `motion`: the track is cut to go with that and with what was told of it
// before, and all feedings are proposed anew. Errors: unknown_track (no such index), told_nothing
// (the track has no fix in that time); those of kept_days.
[[nodiscard]] Result<LogProposal> correct_cut(const OpenRanch& open, LogProposal proposal,
                                              std::size_t track, double from_s, double to_s,
                                              Motion motion);

}  // namespace haylane
