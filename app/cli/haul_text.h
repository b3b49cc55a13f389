#pragma once
// What hauling costs, as a rancher reads it on the terminal.

#include "app/session/haul_ranch.h"

#include <string>

namespace haylane {

[[nodiscard]] std::string haul_text(const HaulReport& report, const Ranch& ranch, bool metric);

}  // namespace haylane
