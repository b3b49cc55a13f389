#pragma once
// The week page's own words, as rich text: the days together, and what moving a line changes.

#include "core/plan/move_line.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"
#include "gis/book/hold_store.h"

#include <QString>

namespace haylane {

[[nodiscard]] QString summary_html(const Plan& plan, const Ranch& ranch);
// `whose`: "Mon 11 Jan, Main cows".
[[nodiscard]] QString moved_html(const QString& whose, const MovedLines& moved, const Ranch& ranch);
// Closed ground: "wet corner in Home Flat, on 2027-01-11".
[[nodiscard]] QString hold_text(const StoredHold& hold);

}  // namespace haylane
