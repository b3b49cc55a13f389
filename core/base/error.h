#pragma once
// Why something could not be done: the one kind of failure that Result<T> carries.

#include <string>

namespace haylane {

// An operation that cannot be done. Shown to the user as "what, where, remedy".
struct Error {
    std::string code;    // stable snake_case word, e.g. "file_unreadable"
    std::string what;    // one sentence, the user's words
    std::string where;   // file, layer, feature, line; empty if nowhere in particular
    std::string remedy;  // what to do about it; never empty for bad input
};

}  // namespace haylane
