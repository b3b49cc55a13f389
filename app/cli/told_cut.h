#pragma once
// What a time of a recorded drive was, as a person types it: "07:12-07:20 laying".

#include "app/session/log_tracks.h"

#include <chrono>
#include <optional>
#include <string>

namespace haylane {

struct ToldCut {
    std::optional<sys_days> day;  // before the times, where it was typed
    std::chrono::seconds from{0};
    std::chrono::seconds to{0};  // before `from`: of the next day
    Motion motion = Motion::stopped;
    std::string text;  // as typed
};

// Times by the ranch's clock, with seconds or without; a day before them; a motion after them.
// Error: told_unreadable.
[[nodiscard]] Result<ToldCut> parse_told(const std::string& text);

// Where in a log it belongs.
struct ToldPlace {
    std::size_t track = 0;
    double from_s = 0.0;
    double to_s = 0.0;
};
// The only track that was recorded then. Errors: told_no_track, told_several_tracks.
[[nodiscard]] Result<ToldPlace> place_told(const ToldCut& told, const LogProposal& proposal,
                                           const LocalDay& local);

}  // namespace haylane
