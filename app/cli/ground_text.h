#pragma once
// The account of the ground as a table for people.

#include "core/ranch/ranch.h"
#include "core/season/ground_account.h"

#include <string>

namespace haylane {

// A row a pasture that was ever fed, what to feed next and rest, and where the records come from.
[[nodiscard]] std::string ground_text(const GroundAccount& ground, const Ranch& ranch, bool metric);

// How even the span's P2O5 came out and would have: a row a pasture fed in it.
[[nodiscard]] std::string what_if_text(const GroundAccount& recorded, const GroundAccount& other,
                                       const std::string& name, const Ranch& ranch, bool metric);

}  // namespace haylane
