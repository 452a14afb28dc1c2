#include <fmt/format.h>

#include <algorithm>

#include "placer/base/words.h"
#include "workbook/broken_text.h"
#include "workbook/csv_rows.h"
#include "workbook/measure.h"
#include "workbook/other_words.h"
#include "workbook/vocabulary.h"

namespace placer::workbook {
namespace {

bool is_unit(std::string_view candidate) {
  return std::ranges::any_of(all_units(), [&](const Unit& unit) { return unit.name == candidate; });
}

/// "Height (mm)" -> "height" and "mm"; "Weight g" likewise.
CsvColumn split(const std::string& text) {
  CsvColumn column;
  column.heading = std::string{trimmed(text)};
  std::string word = lower_case(column.heading);
  std::ranges::replace(word, '_', ' ');
  const std::size_t open = word.find_first_of("([");
  const std::size_t blank = word.rfind(' ');
  std::string unit;
  if (open != std::string::npos) {
    const std::size_t close = word.find_first_of(")]", open);
    unit = std::string{trimmed(std::string_view{word}.substr(open + 1, close - open - 1))};
    word = std::string{trimmed(std::string_view{word}.substr(0, open))};
  } else if (blank != std::string::npos && is_unit(word.substr(blank + 1))) {
    unit = word.substr(blank + 1);
    word = std::string{trimmed(std::string_view{word}.substr(0, blank))};
  }
  if (is_unit(unit)) column.unit = unit;
  column.word = word;
  return column;
}

class HeadingReader {
 public:
  HeadingReader(const CsvRow& heading, CsvTeller& teller) : heading_{heading}, teller_{teller} {}

  std::optional<std::vector<CsvColumn>> read() {
    for (const CsvField& field : heading_) {
      CsvColumn column = split(field.text);
      const std::string given = column.word;
      column.word = word_for(given);
      if (column.word.empty() && !given.empty()) note_unknown(field, given);
      if (!column.word.empty()) tell_twice(field, column);
      columns_.push_back(std::move(column));
    }
    if (sound_) tell_missing();
    if (!sound_) return std::nullopt;
    for (const CsvField* field : unused_) {
      teller_.look("unused", field->where,
                   fmt::format("the column \"{}\" is not used", shortened(trimmed(field->text))));
    }
    return std::move(columns_);
  }

 private:
  static std::string word_for(const std::string& given) {
    const auto known = words_of("piece");
    if (std::ranges::find(known, given) != known.end()) return given;
    return own_word("piece", given).value_or("");
  }

  bool has(std::string_view word) const {
    return std::ranges::any_of(columns_,
                               [&](const CsvColumn& column) { return column.word == word; });
  }

  void refuse(std::string code, const TextPos& where, std::string message,
              std::optional<std::string> suggestion = std::nullopt) {
    teller_.refuse(std::move(code), where, std::move(message), std::move(suggestion));
    sound_ = false;
  }

  /// A heading that is nearly a word is a doubt; others are told and not used.
  void note_unknown(const CsvField& field, const std::string& given) {
    if (const auto near = nearest_word(given, words_of("piece"))) {
      refuse("word", field.where, fmt::format("no such word \"{}\" for a piece", shortened(given)),
             near);
    } else {
      unused_.push_back(&field);
    }
  }

  void tell_twice(const CsvField& field, const CsvColumn& column) {
    for (const CsvColumn& before : columns_) {
      if (before.word != column.word) continue;
      refuse("twice", field.where,
             fmt::format("the columns \"{}\" and \"{}\" both give \"{}\"", before.heading,
                         column.heading, column.word));
    }
  }

  void tell_missing() {
    const TextPos& where = heading_.front().where;
    for (const std::string_view needed : {"name", "height"}) {
      if (has(needed)) continue;
      refuse("missing", where,
             fmt::format("no column is called \"{}\": the first line of the table names its "
                         "columns",
                         needed));
    }
    if (sound_ && !has("across") && !has("size") && !has("oval")) {
      refuse("missing", where, "no column tells the shape: across, size or oval");
    }
  }

  const CsvRow& heading_;
  CsvTeller& teller_;
  std::vector<CsvColumn> columns_;
  std::vector<const CsvField*> unused_;
  bool sound_ = true;
};

}  // namespace

std::optional<std::vector<CsvColumn>> columns_of(const CsvRow& heading, CsvTeller teller) {
  return HeadingReader{heading, teller}.read();
}

}  // namespace placer::workbook
