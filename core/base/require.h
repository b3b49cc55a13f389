#pragma once
// Stops the program when a precondition is broken: a bug of ours, never reachable from input.

namespace haylane {

// Does nothing when `holds`; else prints `message` with its place and aborts.
void require(bool holds, const char* message, const char* file = __builtin_FILE(),
             int line = __builtin_LINE());

}  // namespace haylane
