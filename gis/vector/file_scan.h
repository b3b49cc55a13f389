#pragma once
// A look at a text file before GDAL gets it, for faults that GDAL would swallow: coordinates that
// are words or decimal commas (it reads "42,87" as 42), document type declarations, links to
// elsewhere, and files that are something else than their name says. Linear in the file's size.

#include "core/base/problem.h"
#include "core/base/result.h"

#include <filesystem>
#include <optional>
#include <string>

namespace haylane {

enum class TextForm { kml, json };

// What the file is to be read as, whatever its name; the list holds what is odd but can be worked
// with. Errors: those of read_file_text, document_type_refused, link_refused,
// coordinate_unreadable, crs_unreadable, broken_json, not_kml, wrong_content.
[[nodiscard]] Result<Problems> scan_text_file(const std::filesystem::path& file, TextForm form);

// The error wrong_content for archives and databases, known by their first bytes.
[[nodiscard]] std::optional<Error> wrong_content(const std::filesystem::path& file);

// The same code for a web page that came in the place of the file `name`.
[[nodiscard]] Error web_page(const std::string& name);
[[nodiscard]] Error document_type_refused(const std::string& name);

}  // namespace haylane
