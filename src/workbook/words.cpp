#include <fmt/format.h>

#include "placer/workbook/studio.h"
#include "workbook/block.h"
#include "workbook/vocabulary.h"

namespace placer::workbook {

std::string takes_in_words(const VocabularyRow& row) {
  switch (row.takes) {
    case Takes::version:
      return "the number 1";
    case Takes::text:
      return "a few words";
    case Takes::yes_no:
      return "yes or no";
    case Takes::count:
      return "a whole number";
    case Takes::choice:
      return listed(choices(row.more));
    case Takes::length:
      return "a length";
    case Takes::mass:
      return "a weight";
    case Takes::temperature:
      return "a temperature";
    case Takes::duration:
      return "a time";
    case Takes::power:
      return "a power";
    case Takes::energy:
      return "kWh";
    case Takes::percent:
      return "a percentage";
    case Takes::angle:
      return "degrees";
    case Takes::price:
      return "a price a kWh";
    case Takes::units:
      return "units, parted by commas";
    case Takes::cone:
      return "a cone";
    case Takes::clock:
      return "a time of a day";
    case Takes::quiet:
      return "two times of the day";
    case Takes::floor: {
      auto ways = choices(row.more);
      for (std::string& way : ways) way += " and a length";
      ways.emplace_back("width x depth");
      ways.emplace_back("a list of corners");
      return listed(ways);
    }
    case Takes::foot:
      return "a diameter or width x depth";
    case Takes::pair:
      return "width x depth";
    case Takes::outline:
      return "a list of corners";
    case Takes::offset:
      return "a length, \"-\" for the other way";
    case Takes::point:
      return "[to the right, to the back]";
    case Takes::points:
      return "a list of places";
    case Takes::angles:
      return "degrees, one or a list";
    case Takes::names:
      return "one name or a list";
    case Takes::reach:
      return fmt::format("a length, or the words of {}", spoken(row.more));
    case Takes::block:
      return fmt::format("the words of {}", spoken(row.more));
    case Takes::blocks:
      return fmt::format("a list, each with the words of {}", spoken(row.more));
    case Takes::block_or_blocks:
      return fmt::format("one or a list of {}", spoken(row.more));
    case Takes::name_or_blocks:
      return fmt::format("a list of names, or of the words of {}", spoken(row.more));
    case Takes::pin:
      return fmt::format("a place, or the words of {}", spoken(row.more));
    case Takes::pieces:
      return fmt::format("a list, each with the words of {}", spoken(row.more));
  }
  return "";
}

namespace {

std::vector<WordList> make_lists() {
  std::vector<WordList> lists;
  for (const PlaceRow& place : places()) {
    WordList list{std::string{place.place}, std::string{place.about}, {}};
    for (const VocabularyRow& row : vocabulary()) {
      if (row.place != place.place) continue;
      list.words.push_back({std::string{row.key}, takes_in_words(row), std::string{row.meaning},
                            fmt::format("{}: {}", row.key, row.example), row.needed});
    }
    lists.push_back(std::move(list));
  }
  return lists;
}

}  // namespace

const std::vector<WordList>& word_lists() {
  static const std::vector<WordList> lists = make_lists();
  return lists;
}

}  // namespace placer::workbook
