#pragma once
// Something odd in the user's map or log: collected in a list while work goes on.

#include <string>
#include <string_view>
#include <vector>

namespace haylane {

enum class Severity { info, warning, error };

// One odd thing. `error` here means "this item could not be used", not "the work stopped".
struct Problem {
    std::string code;  // stable snake_case word, e.g. "overlapping_pastures"
    Severity severity = Severity::warning;
    std::string where;   // file, layer, feature, line
    std::string text;    // what is odd, one sentence
    std::string remedy;  // what to do about it
};

using Problems = std::vector<Problem>;

// "info", "warning" or "error".
[[nodiscard]] constexpr std::string_view to_string(Severity severity) {
    switch (severity) {
        case Severity::info:
            return "info";
        case Severity::warning:
            return "warning";
        case Severity::error:
            return "error";
    }
    return "error";
}

}  // namespace haylane
