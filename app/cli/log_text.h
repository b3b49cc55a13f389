#pragma once
// A log of recorded drives as text for people.

#include "app/session/rig_speeds.h"

#include <string>
#include <vector>

namespace haylane {

struct LogTextOptions {
    bool metric = false;
    bool pieces = false;  // with what each track did when
};

// `speeds`: what the tracks show of the rigs, from speeds_seen.
[[nodiscard]] std::string log_text(const LogProposal& proposal,
                                   const std::vector<RigSpeeds>& speeds, const OpenRanch& open,
                                   const LogTextOptions& options);

}  // namespace haylane
