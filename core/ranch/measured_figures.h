#pragma once
// Figures that were measured with a rig on its own ranch: put where lines and hauls read them, and
// listed for results beside the settings.

#include "core/ranch/ranch.h"
#include "core/ranch/settings.h"

#include <string>
#include <vector>

namespace haylane {

// Fines' drift and feeding speed take the rig's place; the other own figures are read where loads
// are worked out (core/haul/load_work.h).
void use_measured(Ranch& ranch);

// Every own figure in force, in the units of the setting table, with status "measured", how often
// it was measured and when last.
[[nodiscard]] std::vector<Assumption> list_measured(const Ranch& ranch);

// "Figures measured on the ranch are used for: A, B."; empty where there are none.
[[nodiscard]] std::string measured_sentence(const Ranch& ranch);

}  // namespace haylane
