#include "workbook/csv_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "placer/base/words.h"
#include "workbook/block.h"
#include "workbook/broken_text.h"
#include "workbook/lines.h"
#include "workbook/other_words.h"

namespace placer::workbook {
namespace {

constexpr std::size_t kMostRows = 100'000;
constexpr std::array kSeparators = {',', ';', '\t'};

std::string spoken_separator(char separator) {
  return separator == '\t' ? "a tab" : fmt::format("\"{}\"", separator);
}

/// A comma or point between digits, and what it can be.
struct DecimalSigns {
  const CsvField* comma = nullptr;           ///< first field with a comma that is no thousands sign
  const CsvField* point = nullptr;           ///< first field with a decimal point
  const CsvField* comma_thousand = nullptr;  ///< first with a comma before exactly three digits
};

class CsvReader {
 public:
  CsvReader(std::string_view text, const std::string& file) : file_{file} {
    if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
    if (refuse_encoding(text) || !choose_separator(text)) return;
    if (!understand_heading() || !understand_decimals()) return;
    for (std::size_t i = 1; i < table_.rows.size(); ++i) add_piece(table_.rows[i]);
    blocks_.told.rows = static_cast<int>(blocks_.pieces.size());
  }

  CsvBlocks take() { return std::move(blocks_); }

 private:
  void tell(Severity severity, std::string code, const TextPos& where, std::string message,
            std::optional<std::string> suggestion = std::nullopt) {
    blocks_.told.findings.push_back(
        {severity, std::move(code), std::move(message), where, std::move(suggestion)});
  }
  void refuse(std::string code, const TextPos& where, std::string message,
              std::optional<std::string> suggestion = std::nullopt) {
    tell(Severity::mistake, std::move(code), where, std::move(message), std::move(suggestion));
  }

  bool refuse_encoding(std::string_view text) {
    const bool wide = text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
    const std::size_t bad = wide ? 0 : first_not_utf8(text);
    const std::size_t nothing = text.find('\0');
    const std::size_t at = std::min(bad, nothing);
    if (at == std::string_view::npos) return false;
    refuse("encoding", Lines{text.substr(0, at)}.at(at, 1, file_),
           "this letter is stored in an old way: save the table as \"CSV UTF-8\"");
    return true;
  }

  /// The one separator that cuts every line into as many fields as the first.
  bool choose_separator(std::string_view text) {
    std::vector<char> even;
    char widest = ',';
    std::size_t most = 0;
    for (const char separator : kSeparators) {
      const CsvTable table = cut(text.substr(0, 200'000), separator, file_);
      if (table.rows.empty()) {
        refuse("empty", TextPos{file_, 1, 1, 2}, "this table is empty");
        return false;
      }
      const std::size_t wide = table.rows.front().size();
      if (wide > most) {
        most = wide;
        widest = separator;
      }
      const bool cut_short = text.size() > 200'000;
      const std::size_t judged = table.rows.size() - (cut_short ? 1 : 0);
      const bool alike =
          std::all_of(table.rows.begin(), table.rows.begin() + static_cast<std::ptrdiff_t>(judged),
                      [&](const auto& row) { return row.size() == wide; });
      if (alike && wide > 1) even.push_back(separator);
    }
    if (even.size() > 1) {
      refuse("table", TextPos{file_, 1, 1, 2},
             fmt::format("{} or {} could part the columns here: put fields that hold one of them "
                         "in quotes",
                         spoken_separator(even[0]), spoken_separator(even[1])));
      return false;
    }
    blocks_.told.separator = even.empty() ? widest : even.front();
    table_ = cut(text, blocks_.told.separator, file_);
    return is_even(most);
  }

  bool is_even(std::size_t most) {
    if (table_.open_quote) {
      refuse("quotes", *table_.open_quote, "this quote is never closed");
      return false;
    }
    const std::vector<CsvField>& heading = table_.rows.front();
    if (most < 2) {
      refuse("table", heading.front().where,
             "no columns can be told apart: part them with commas, semicolons or tabs");
      return false;
    }
    if (table_.rows.size() > kMostRows + 1) {
      refuse("large", table_.rows[kMostRows + 1].front().where,
             fmt::format("more than {} lines: split the table", kMostRows));
      return false;
    }
    for (const std::vector<CsvField>& row : table_.rows) {
      if (row.size() == heading.size()) continue;
      refuse("table", row.back().where,
             fmt::format("this line has {} fields, and the heading {}: a field with {} in it needs "
                         "quotes",
                         row.size(), heading.size(), spoken_separator(blocks_.told.separator)));
      return false;
    }
    return true;
  }

  /// "Height (mm)" -> "height" and "mm".
  static CsvColumn split_heading(const std::string& text) {
    CsvColumn column;
    column.heading = std::string{trimmed(text)};
    std::string word = lower_case(column.heading);
    std::ranges::replace(word, '_', ' ');
    const auto is_unit = [](std::string_view candidate) {
      return std::ranges::any_of(all_units(),
                                 [&](const Unit& unit) { return unit.name == candidate; });
    };
    const std::size_t open = word.find_first_of("([");
    std::string unit;
    if (open != std::string::npos) {
      const std::size_t close = word.find_first_of(")]", open);
      unit = std::string{trimmed(word.substr(open + 1, close - open - 1))};
      word = std::string{trimmed(word.substr(0, open))};
    } else if (const std::size_t blank = word.rfind(' ');
               blank != std::string::npos && is_unit(word.substr(blank + 1))) {
      unit = word.substr(blank + 1);
      word = std::string{trimmed(word.substr(0, blank))};
    }
    if (is_unit(unit)) column.unit = unit;
    column.word = word;
    return column;
  }

  bool understand_heading() {
    bool sound = true;
    for (const CsvField& field : table_.rows.front()) {
      CsvColumn column = split_heading(field.text);
      const auto known = words_of("piece");
      const std::string given = column.word;
      if (std::ranges::find(known, given) == known.end()) {
        column.word = own_word("piece", given).value_or("");
      }
      if (column.word.empty() && !given.empty()) sound = unknown_heading(field, given) && sound;
      if (!column.word.empty()) sound = not_twice(field, column) && sound;
      blocks_.told.columns.push_back(std::move(column));
    }
    for (const std::string_view needed : {"name", "height"}) {
      if (has_column(needed) || has_mistakes(blocks_.told.findings)) continue;
      refuse("missing", table_.rows.front().front().where,
             fmt::format("no column is called \"{}\": the first line of the table names its "
                         "columns",
                         needed));
      sound = false;
    }
    const bool shaped = has_column("across") || has_column("size") || has_column("oval");
    if (!shaped && sound) {
      refuse("missing", table_.rows.front().front().where,
             "no column tells the shape: across, size or oval");
      return false;
    }
    return sound;
  }

  bool has_column(std::string_view word) const {
    return std::ranges::any_of(blocks_.told.columns,
                               [&](const CsvColumn& column) { return column.word == word; });
  }

  /// A heading that is nearly a word is a doubt; others are told and not used.
  bool unknown_heading(const CsvField& field, const std::string& given) {
    if (const auto near = nearest_word(given, words_of("piece"))) {
      refuse("word", field.where, fmt::format("no such word \"{}\" for a piece", given), near);
      return false;
    }
    tell(Severity::look, "unused", field.where,
         fmt::format("the column \"{}\" is not used", shortened(given)));
    return true;
  }

  bool not_twice(const CsvField& field, const CsvColumn& column) {
    for (const CsvColumn& before : blocks_.told.columns) {
      if (before.word != column.word) continue;
      refuse("twice", field.where,
             fmt::format("the columns \"{}\" and \"{}\" both give \"{}\"", before.heading,
                         column.heading, column.word));
      return false;
    }
    return true;
  }

  /// Words whose fields hold numbers.
  static bool numeric(std::string_view word) {
    const VocabularyRow* row = find_word("piece", word);
    if (row == nullptr) return false;
    switch (row->takes) {
      case Takes::count:
      case Takes::length:
      case Takes::mass:
      case Takes::angle:
      case Takes::pair:
      case Takes::reach:
        return true;
      default:
        return false;
    }
  }

  void note_signs(const CsvField& field, DecimalSigns& signs) const {
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    const std::string& text = field.text;
    for (std::size_t i = 1; i + 1 < text.size(); ++i) {
      if ((text[i] != ',' && text[i] != '.') || !digit(text[i - 1]) || !digit(text[i + 1]))
        continue;
      std::size_t end = i + 1;
      while (end < text.size() && digit(text[end])) ++end;
      if (text[i] == '.' && signs.point == nullptr) signs.point = &field;
      const bool thousand = end - i == 4;
      if (text[i] == ',' && thousand && signs.comma_thousand == nullptr) {
        signs.comma_thousand = &field;
      }
      if (text[i] == ',' && !thousand && signs.comma == nullptr) signs.comma = &field;
    }
  }

  bool understand_decimals() {
    DecimalSigns signs;
    for (std::size_t r = 1; r < table_.rows.size(); ++r) {
      for (std::size_t c = 0; c < table_.rows[r].size(); ++c) {
        if (numeric(blocks_.told.columns[c].word)) note_signs(table_.rows[r][c], signs);
      }
    }
    const CsvField* any_comma = signs.comma != nullptr ? signs.comma : signs.comma_thousand;
    if (any_comma != nullptr && signs.point != nullptr) {
      refuse("decimals", any_comma->where,
             fmt::format("\"{}\" has a decimal comma and \"{}\" (line {}) a decimal point: use one "
                         "of them throughout",
                         shortened(any_comma->text), shortened(signs.point->text),
                         signs.point->where.line));
      return false;
    }
    if (signs.comma == nullptr && signs.comma_thousand != nullptr) {
      const std::string& text = signs.comma_thousand->text;
      refuse("decimals", signs.comma_thousand->where,
             fmt::format("\"{}\" can mean thousands or decimals: write it without a comma",
                         shortened(text)));
      return false;
    }
    blocks_.told.decimal_comma = signs.comma != nullptr;
    return true;
  }

  void add_piece(const std::vector<CsvField>& row) {
    Node piece;
    piece.kind = Node::Kind::map;
    piece.where = row.front().where;
    for (std::size_t c = 0; c < row.size(); ++c) {
      const CsvColumn& column = blocks_.told.columns[c];
      std::string text{trimmed(row[c].text)};
      if (column.word.empty() || text.empty()) continue;
      if (numeric(column.word)) text = as_number(text, column);
      Node key;
      key.kind = Node::Kind::scalar;
      key.text = column.word;
      key.where = row[c].where;
      Node value = key;
      value.text = std::move(text);
      value.quoted = true;
      piece.entries.emplace_back(std::move(key), std::move(value));
    }
    blocks_.pieces.push_back(std::move(piece));
  }

  std::string as_number(std::string text, const CsvColumn& column) const {
    if (blocks_.told.decimal_comma) std::ranges::replace(text, ',', '.');
    const bool ends_bare = text.back() >= '0' && text.back() <= '9';
    if (ends_bare && !column.unit.empty()) text += " " + column.unit;
    return text;
  }

  const std::string& file_;
  CsvTable table_;
  CsvBlocks blocks_;
};

}  // namespace

CsvBlocks read_csv_blocks(std::string_view text, const std::string& file) {
  return CsvReader{text, file}.take();
}

}  // namespace placer::workbook
