/// @file memory.h
/// Packings already worked out. A large batch asks for the same shelf of the same pieces many
/// times.
#pragma once

#include <array>
#include <cstdint>
#include <map>

#include "placer/packing/packing.h"

namespace placer::loading {

/// Not for use by two threads at once. Remembering never changes an answer.
class Memory {
 public:
  packing::Packing pack(const packing::Problem& problem, const packing::Options& options);

 private:
  using Key = std::array<std::uint64_t, 2>;
  std::map<Key, packing::Packing> known_;
};

}  // namespace placer::loading
