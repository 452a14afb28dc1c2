/// @file index.h
/// Indices of the model are ints; this spells the lookup once.
#pragma once

#include <cstddef>

namespace placer::loading {

template <class Sequence>
decltype(auto) at(Sequence& sequence, int i) {
  return sequence[static_cast<std::size_t>(i)];
}

template <class Sequence>
int count_of(const Sequence& sequence) {
  return static_cast<int>(sequence.size());
}

}  // namespace placer::loading
