#pragma once
// The numbers that went into a paper, in plain words, with who says so.

#include "app/papers/flow.h"
#include "core/ranch/settings.h"

#include <string>
#include <vector>

namespace haylane {

// Lengths, temperatures and money as the reader writes them, the rest as the setting table has
// them.
void paint_assumption_table(Flow& flow, const std::vector<Assumption>& assumptions, bool metric,
                            const std::string& currency);

}  // namespace haylane
