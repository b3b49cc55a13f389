#pragma once
// Problems and switched-off features as JSON values with the keys of plan.json.

#include "core/ranch/check_ranch.h"

#include <vector>

#include <nlohmann/json.hpp>

namespace haylane {

[[nodiscard]] nlohmann::ordered_json problems_json(const Problems& problems);
[[nodiscard]] nlohmann::ordered_json switched_off_json(const std::vector<SwitchedOff>& items);

}  // namespace haylane
