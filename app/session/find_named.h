#pragma once
// Where something of a name stands in a list of the ranch. The first one; nullopt when none has it.

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

template <class T>
[[nodiscard]] std::optional<std::size_t> find_named(const std::vector<T>& items,
                                                    const std::string& name) {
    const auto found =
        std::find_if(items.begin(), items.end(), [&](const T& item) { return item.name == name; });
    if (found == items.end()) return std::nullopt;
    return static_cast<std::size_t>(found - items.begin());
}

}  // namespace haylane
