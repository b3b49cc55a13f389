#pragma once
// A JSON file as one document, or the line and column where it stops being one.

#include "core/base/result.h"

#include <filesystem>

#include <nlohmann/json.hpp>

namespace haylane {

// Errors: those of read_file_text; broken_json for text that is no JSON, several documents one
// after the other, numbers that no double holds, and JSON without a "type", which GeoJSON needs.
[[nodiscard]] Result<nlohmann::json> parse_json(const std::filesystem::path& file);

// A member of an object; null where there is none, or no object.
[[nodiscard]] const nlohmann::json& member(const nlohmann::json& object, const char* key);

}  // namespace haylane
