#pragma once
// The account of the ground as a table, pastures.csv: one row a pasture and season in which it was
// fed, one for the span asked for, one since the first record. US or metric columns with their unit
// in the name; classes ("20-50") where records are unsure. RFC 4180, UTF-8.

#include "core/ranch/ranch.h"
#include "core/season/ground_account.h"

#include <string>

namespace haylane {

[[nodiscard]] std::string ground_csv(const GroundAccount& ground, const Ranch& ranch, bool metric);

}  // namespace haylane
