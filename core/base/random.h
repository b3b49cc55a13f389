#pragma once
// A small seeded generator whose numbers are the same on every machine and library
// (the standard's distributions are not). SplitMix64: Steele, Lea, Flood 2014, OOPSLA.

#include <cstdint>

namespace haylane {

class Random {
  public:
    explicit Random(std::uint64_t seed) : state_(seed) {}

    // Next 64 uniform bits.
    [[nodiscard]] std::uint64_t bits() {
        state_ += 0x9E3779B97F4A7C15ULL;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31U);
    }
    // Uniform in [0, 1).
    [[nodiscard]] double uniform() { return static_cast<double>(bits() >> 11U) * 0x1.0p-53; }
    // Uniform in [0, n); n > 0. The bias of the modulus is below n / 2^64.
    [[nodiscard]] std::uint64_t below(std::uint64_t n) { return bits() % n; }

  private:
    std::uint64_t state_;
};

}  // namespace haylane
