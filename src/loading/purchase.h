/// @file purchase.h
/// What might be bought to get more in.
#pragma once

#include <string>
#include <vector>

#include "placer/model/kiln.h"

namespace placer::loading {

/// What might be bought, with the words for it.
struct Purchase {
  Kiln kiln;
  std::string words;
};

/// One more of each kind of shelf; posts of each height for one more shelf.
std::vector<Purchase> purchases(const Kiln& kiln);

}  // namespace placer::loading
