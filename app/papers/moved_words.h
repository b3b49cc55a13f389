#pragma once
// What moving a feeding's lines by hand changes, in words for the terminal and the screen: rules
// broken and given way first, then minutes, way, fuel, cost, ground, evenness and cautions.

#include "core/plan/move_line.h"
#include "core/ranch/ranch.h"

#include <string>
#include <vector>

namespace haylane {

struct MovedWords {
    std::string what;  // "breaks", "gives way", "minutes", "way", ...
    std::string how;   // "4 min more"
};

// Rules alone where the lines cannot be laid at all.
[[nodiscard]] std::vector<MovedWords> moved_words(const MovedLines& moved, const Ranch& ranch,
                                                  bool metric);

}  // namespace haylane
