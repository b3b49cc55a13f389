#pragma once
// Wide classes for figures that rest on memory or guesses: a quarter or more of the records behind
// them is recalled or assumed, and a number would claim more than is known.

namespace haylane {

struct ValueClass {
    double from = 0.0;
    double to = 0.0;
};
// The step of the row ... 1, 2, 5, 10, 20, 50 ... that a value lies in: 37 gives 20 to 50, 20 gives
// 20 to 50. Zero, infinity and NaN give themselves; negative values the mirror of their size.
[[nodiscard]] ValueClass class_of(double value);

}  // namespace haylane
