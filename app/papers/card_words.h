#pragma once
// The words of a planned feeding's card, on paper and on the screen: a title, and a paragraph each
// on bales, line, haul, ground, why it is laid there, and what to beware of.

#include "app/papers/sheet.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <vector>

namespace haylane {

[[nodiscard]] Rich card_title(const PlannedFeeding& feeding, const Ranch& ranch);
[[nodiscard]] std::vector<Rich> card_lines(const PlannedFeeding& feeding, const Ranch& ranch,
                                           bool metric);

}  // namespace haylane
