#pragma once
// Text as it may stand in an XML 1.0 element or attribute.

#include <string>

namespace haylane {

// Marks are escaped; characters that XML 1.0 (section 2.2) has no place for are left out.
[[nodiscard]] std::string xml_text(const std::string& text);

}  // namespace haylane
