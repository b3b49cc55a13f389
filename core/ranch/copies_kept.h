#pragma once
// The setting copies_kept: how many dated copies of the book are kept. It is the book's own, no
// number of the models, and so stands apart from Settings.

#include <charconv>
#include <optional>
#include <string_view>

namespace haylane {

inline constexpr std::string_view kCopiesKept = "copies_kept";
inline constexpr int kUsualCopies = 10;
inline constexpr int kMostCopies = 1000;

// nullopt for anything but a whole number from 0 to kMostCopies.
[[nodiscard]] inline std::optional<int> parse_copies_kept(std::string_view typed) {
    int value = -1;
    const char* const end = typed.data() + typed.size();
    const auto read = std::from_chars(typed.data(), end, value);
    const bool sound = read.ec == std::errc() && read.ptr == end;
    return sound && value >= 0 && value <= kMostCopies ? std::optional(value) : std::nullopt;
}

}  // namespace haylane
