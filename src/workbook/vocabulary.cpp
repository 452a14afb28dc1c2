#include "workbook/vocabulary.h"

#include <algorithm>

namespace placer::workbook {

const VocabularyRow* find_word(std::string_view place, std::string_view key) {
  const auto rows = vocabulary();
  const auto found = std::ranges::find_if(
      rows, [&](const VocabularyRow& row) { return row.place == place && row.key == key; });
  return found == rows.end() ? nullptr : &*found;
}

std::string_view spoken(std::string_view place) {
  const auto rows = places();
  const auto found =
      std::ranges::find_if(rows, [&](const PlaceRow& row) { return row.place == place; });
  return found == rows.end() ? place : found->spoken;
}

std::vector<std::string> words_of(std::string_view place) {
  std::vector<std::string> words;
  for (const VocabularyRow& row : vocabulary()) {
    if (row.place == place) words.emplace_back(row.key);
  }
  return words;
}

std::vector<std::string> choices(std::string_view more) {
  std::vector<std::string> parts;
  while (!more.empty()) {
    const std::size_t bar = more.find('|');
    parts.emplace_back(more.substr(0, bar));
    more = bar == std::string_view::npos ? std::string_view{} : more.substr(bar + 1);
  }
  return parts;
}

}  // namespace placer::workbook
