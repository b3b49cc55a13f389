#pragma once
// Unit suffixes of column names, both systems, and their exact way to SI.

#include "core/ranch/raw_ranch.h"

#include <optional>
#include <string_view>

namespace haylane {

// si = (value + shift) * factor.
struct UnitScale {
    double factor = 1.0;
    double shift = 0.0;
    [[nodiscard]] double to_si(double value) const { return (value + shift) * factor; }
    [[nodiscard]] double from_si(double value) const { return value / factor - shift; }
};

// nullopt for a suffix that is none of this dimension's. Suffixes are lower case: "lb_ac".
[[nodiscard]] std::optional<UnitScale> find_unit(Dimension dimension, std::string_view suffix);
// The suffix that a table on the screen uses: "lb" or "kg"; empty for dimensions without units.
[[nodiscard]] std::string_view usual_unit(Dimension dimension, bool metric);
// The suffixes of a dimension for messages: "_lb, _kg, _oz"; empty for dimensions without units.
[[nodiscard]] std::string_view unit_choices(Dimension dimension);

}  // namespace haylane
