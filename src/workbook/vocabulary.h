/// @file vocabulary.h
/// Every word that a studio file may hold: one table from which come the unknown-word messages, the
/// limits of each number, `placer words` and the schema for editors. Internal to workbook/.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace placer::workbook {

/// What a word takes.
enum class Takes {
  version,      ///< the number 1
  text,         ///< any words
  yes_no,       ///< yes or no
  count,        ///< a whole number from `least` to `most`
  choice,       ///< one of `more`, parted by '|'
  length,       ///< mm, from `least` to `most`
  mass,         ///< kg
  temperature,  ///< °C
  duration,     ///< h
  power,        ///< kW
  energy,       ///< "62 kWh"
  percent,      ///< "6 %", or 6
  angle,        ///< degrees
  price,        ///< "0.32 EUR/kWh"
  units,        ///< "mm, C"
  cone,         ///< a cone's name, as text
  clock,        ///< "6:30", "tomorrow 6:30", "2026-11-25 6:30"
  quiet,        ///< "22:00 to 6:00"
  floor,        ///< a chamber or shelf from above: the words in `more`, a width x depth, an outline
  foot,         ///< a post's foot: a diameter, "40 x 40"
  pair,         ///< "200 x 150"
  outline,      ///< [[0, 0], [200, 0], ...]
  offset,       ///< a length of either sign
  point,        ///< [x, y] in lengths, of either sign
  points,       ///< a list of those
  angles,       ///< one angle or a list
  names,        ///< one name or a list
  reach,        ///< a length, or a block of place `more`
  block,        ///< the words of place `more`
  blocks,       ///< a list of blocks of place `more`
  block_or_blocks,  ///< either
  name_or_blocks,   ///< a list of names or blocks of place `more`
  pin,              ///< a point, or a block of place `more`
  pieces,           ///< a list of blocks of place `more`, or "from FILE.csv"
};

struct VocabularyRow {
  std::string_view place;  ///< "" = the file itself
  std::string_view key;
  Takes takes = Takes::text;
  std::string_view more;  ///< see Takes
  std::string_view meaning;
  std::string_view example;  ///< of the value
  bool needed = false;
  double least = 0, most = 0;  ///< of a number; a length of least 0 may be 0
};

struct PlaceRow {
  std::string_view place;
  std::string_view spoken;  ///< "a piece", "the kiln"
  std::string_view about;
};

std::span<const VocabularyRow> vocabulary();
std::span<const PlaceRow> places();

/// nullptr when the place knows no such word.
const VocabularyRow* find_word(std::string_view place, std::string_view key);
std::string_view spoken(std::string_view place);
/// "a length", "top or front", ...: what a row's word takes, in words.
std::string takes_in_words(const VocabularyRow& row);
std::vector<std::string> words_of(std::string_view place);
/// The parts of `more`.
std::vector<std::string> choices(std::string_view more);

}  // namespace placer::workbook
