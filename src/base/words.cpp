#include "placer/base/words.h"

#include <algorithm>
#include <vector>

namespace placer {
namespace {

std::string lower(std::string_view text) {
  std::string out{text};
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

}  // namespace

int letters_apart(std::string_view a, std::string_view b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::vector<int>> cost(a.size() + 1, std::vector<int>(width, 0));
  for (std::size_t i = 0; i <= a.size(); ++i) cost[i][0] = static_cast<int>(i);
  for (std::size_t j = 0; j <= b.size(); ++j) cost[0][j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int change = cost[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      int least = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        least = std::min(least, cost[i - 2][j - 2] + 1);
      }
      cost[i][j] = least;
    }
  }
  return cost[a.size()][b.size()];
}

std::optional<std::string> nearest_word(std::string_view word,
                                        std::span<const std::string> known) {
  const std::string wanted = lower(word);
  int least = std::clamp(static_cast<int>(wanted.size() / 3), 1, 3) + 1;
  const std::string* nearest = nullptr;
  for (const std::string& candidate : known) {
    const int apart = letters_apart(wanted, lower(candidate));
    if (apart < least) {
      least = apart;
      nearest = &candidate;
    }
  }
  if (nearest == nullptr) return std::nullopt;
  return *nearest;
}

}  // namespace placer
