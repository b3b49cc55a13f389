#pragma once
// The week sheet after its front page: close-up maps, a card a feeding, how evenly the ground has
// been fed, targets, hay left, problems, and the numbers used with their sources.

#include "app/papers/flow.h"
#include "app/papers/front_page.h"
#include "core/plan/plan_request.h"

#include <vector>

namespace haylane {

// Close-up maps of where the lines lie, one a herd and pasture.
void paint_close_ups(Flow& flow, const SheetInput& input);
// What is known of one feeding.
void paint_cards(Flow& flow, const SheetInput& input);
void paint_evenness(Flow& flow, const PlanResult& result, const SheetInput& input);
// What pastures have had this season against what they want; nothing where no target is set.
void paint_targets(Flow& flow, const SheetInput& input);
void paint_hay_left(Flow& flow, const SheetInput& input);
void paint_problems(Flow& flow, const SheetInput& input);
void paint_assumptions(Flow& flow, const SheetInput& input);

}  // namespace haylane
