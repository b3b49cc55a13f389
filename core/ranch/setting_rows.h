#pragma once
// The rows behind setting_table(), made once; for settings.cpp only.

#include "core/ranch/settings.h"

#include <vector>

namespace haylane {

[[nodiscard]] std::vector<SettingInfo> setting_rows();

}  // namespace haylane
