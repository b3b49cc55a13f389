#pragma once
// A log of recorded drives as text for people and as JSON for programs.

#include "app/session/log_tracks.h"

#include <string>

#include <nlohmann/json_fwd.hpp>

namespace haylane {

[[nodiscard]] std::string log_text(const LogProposal& proposal, const Ranch& ranch, bool metric);
// SI; each point that was dropped with its reason and the line of the file.
[[nodiscard]] nlohmann::ordered_json log_json(const LogProposal& proposal, const Ranch& ranch);

}  // namespace haylane
