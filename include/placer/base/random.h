/// @file random.h
/// Random numbers that are the same on every machine and with every standard library.
#pragma once

#include <cstdint>

namespace placer {

/// SplitMix64: 64-bit state, one addition and three xor-shift-multiply steps a draw.
/// @source Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014
class Random {
 public:
  explicit constexpr Random(std::uint64_t seed) : state_{seed} {}

  constexpr std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
  }

  /// Evenly spread in [0, 1), 53 bits.
  constexpr double uniform() { return static_cast<double>(next() >> 11U) * 0x1.0p-53; }

  /// Evenly spread in [low, high).
  constexpr double uniform(double low, double high) { return low + (high - low) * uniform(); }

  /// A whole number in [0, n), n > 0 (the bias of n/2^64 is below anything measurable here).
  constexpr std::uint64_t below(std::uint64_t n) { return next() % n; }

 private:
  std::uint64_t state_;
};

}  // namespace placer
