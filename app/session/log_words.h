#pragma once
// What a log proposes, in words for the terminal and the screen.

#include "app/session/log_tracks.h"

#include <string>

namespace haylane {

// "410 ft", "2.3 mi", to the foot or the tenth of a mile.
[[nodiscard]] std::string driven_length(double length_m, bool metric);
[[nodiscard]] std::string plural(std::size_t n, const char* what);  // "1 track", "3 tracks"
// Three lines at most: what was fed, how it was laid against the plan, why it is not recorded.
[[nodiscard]] std::string feeding_text(const ProposedFeeding& feeding, bool metric);

}  // namespace haylane
