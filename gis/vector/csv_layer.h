#pragma once
// A CSV file as a layer. Columns lat/latitude and lon/lng/longitude, if both are there, make
// points; rows whose position cannot be read keep their cells and lose the point, with a problem.

#include "core/base/result.h"
#include "gis/vector/layer.h"

#include <filesystem>
#include <optional>
#include <string>

namespace haylane {

// Errors: those of read_csv.
[[nodiscard]] Result<SourceLayer> read_csv_layer(const std::filesystem::path& file);

// A whole cell as a number: digits with a decimal point, or a decimal comma where allowed; no
// thousands separators, no words, no infinities. nullopt otherwise.
[[nodiscard]] std::optional<double> parse_number(const std::string& cell, bool decimal_comma);

}  // namespace haylane
