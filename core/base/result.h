#pragma once
// A value or the Error that says why there is none. Every function that returns one is
// [[nodiscard]].

#include "core/base/error.h"

#include <utility>

#include <tl/expected.hpp>

namespace haylane {

template <class T>
using Result = tl::expected<T, Error>;

// Makes the failing side of a Result from an Error.
[[nodiscard]] inline tl::unexpected<Error> fail(Error error) {
    return tl::unexpected<Error>(std::move(error));
}

}  // namespace haylane
