#pragma once
// What trials of rigs showed, as a rancher reads it on the terminal.

#include "app/papers/trial_words.h"

#include <string>

namespace haylane {

[[nodiscard]] std::string trial_text(const TrialComparison& trials, const TrialWords& words);

}  // namespace haylane
