// Numbers are read and written without regard to the machine's locale (std::from_chars, fmt).
#include "core/ranch/raw_ranch.h"

#include <charconv>

#include <fmt/format.h>

namespace haylane {

namespace {

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlanks = " \t\r\n";
    const std::size_t first = text.find_first_not_of(kBlanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

std::optional<double> parsed(std::string_view text) {
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc{} || stop != end) return std::nullopt;
    return value;
}

}  // namespace

std::optional<double> RawRow::number(std::string_view column) const {
    const auto found = fields.find(std::string(column));
    if (found == fields.end()) return std::nullopt;
    if (const auto* value = std::get_if<double>(&found->second)) return *value;
    if (const auto* words = std::get_if<std::string>(&found->second))
        return parsed(trimmed(*words));
    return std::nullopt;
}

std::string RawRow::text(std::string_view column) const {
    const auto found = fields.find(std::string(column));
    if (found == fields.end()) return {};
    if (const auto* value = std::get_if<double>(&found->second)) return fmt::format("{}", *value);
    if (const auto* words = std::get_if<std::string>(&found->second)) {
        return std::string(trimmed(*words));
    }
    return {};
}

}  // namespace haylane
