#pragma once
// A log of recorded drives as JSON for programs.

#include "app/session/rig_speeds.h"

#include <vector>

#include <nlohmann/json_fwd.hpp>

namespace haylane {

// SI; each point that was dropped with its reason and the line of the file. `speeds`: what the
// tracks show of the rigs, from speeds_seen.
[[nodiscard]] nlohmann::ordered_json log_json(const LogProposal& proposal,
                                              const std::vector<RigSpeeds>& speeds,
                                              const OpenRanch& open);

}  // namespace haylane
