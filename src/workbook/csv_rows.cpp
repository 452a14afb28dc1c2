#include "workbook/csv_rows.h"

#include <fmt/format.h>

#include <algorithm>

#include "workbook/broken_text.h"
#include "workbook/encoding.h"
#include "workbook/measure.h"
#include "workbook/vocabulary.h"

namespace placer::workbook {
namespace {

/// A comma or point between digits, and what it can be.
struct DecimalSigns {
  const CsvField* comma = nullptr;           ///< first field with a comma that is no thousands sign
  const CsvField* point = nullptr;           ///< first field with a decimal point
  const CsvField* comma_thousand = nullptr;  ///< first with a comma before exactly three digits
};

bool digit(char c) { return c >= '0' && c <= '9'; }

void note_signs(const CsvField& field, DecimalSigns& signs) {
  const std::string& text = field.text;
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    if ((text[i] != ',' && text[i] != '.') || !digit(text[i - 1]) || !digit(text[i + 1])) continue;
    std::size_t end = i + 1;
    while (end < text.size() && digit(text[end])) ++end;
    const bool thousand = end - i == 4;
    const CsvField*& sign = text[i] == '.' ? signs.point
                            : thousand     ? signs.comma_thousand
                                           : signs.comma;
    if (sign == nullptr) sign = &field;
  }
}

/// Words whose fields hold numbers.
bool numeric(std::string_view word) {
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

bool is_shape(std::string_view word) {
  return word == "across" || word == "size" || word == "oval";
}

class RowReader {
 public:
  RowReader(const std::vector<CsvRow>& rows, CsvBlocks& blocks) : rows_{rows}, blocks_{blocks} {
    for (const CsvColumn& column : blocks_.told.columns) {
      numeric_.push_back(numeric(column.word));
      shapes_ += is_shape(column.word) ? 1 : 0;
    }
  }

  void read(CsvTeller teller) {
    if (!understand_decimals(teller)) return;
    for (std::size_t i = 1; i < rows_.size(); ++i) add_piece(rows_[i]);
    blocks_.told.rows = static_cast<int>(blocks_.pieces.size());
  }

 private:
  bool understand_decimals(CsvTeller& teller) {
    DecimalSigns signs;
    for (std::size_t r = 1; r < rows_.size(); ++r) {
      for (std::size_t c = 0; c < rows_[r].size(); ++c) {
        if (numeric_[c]) note_signs(rows_[r][c], signs);
      }
    }
    const CsvField* any_comma = signs.comma != nullptr ? signs.comma : signs.comma_thousand;
    if (any_comma != nullptr && signs.point != nullptr) {
      teller.refuse("decimals", any_comma->where,
                    fmt::format("\"{}\" has a decimal comma and \"{}\" (line {}) a decimal point: "
                                "use one of them throughout",
                                shortened(any_comma->text), shortened(signs.point->text),
                                signs.point->where.line));
      return false;
    }
    if (signs.comma == nullptr && signs.comma_thousand != nullptr) {
      teller.refuse("decimals", signs.comma_thousand->where,
                    fmt::format("\"{}\" can mean thousands or decimals: write it without a comma",
                                shortened(signs.comma_thousand->text)));
      return false;
    }
    blocks_.told.decimal_comma = signs.comma != nullptr;
    return true;
  }

  /// A field left empty says that the piece has no such thing, unless it must have one.
  bool must_be_filled(const CsvColumn& column) const {
    return column.word == "name" || column.word == "height" || column.word == "count" ||
           (is_shape(column.word) && shapes_ == 1);
  }

  void add_piece(const CsvRow& row) {
    Node piece;
    piece.kind = Node::Kind::map;
    piece.where = row.front().where;
    for (std::size_t c = 0; c < row.size(); ++c) {
      const CsvColumn& column = blocks_.told.columns[c];
      std::string text{trimmed(row[c].text)};
      if (column.word.empty() || (text.empty() && !must_be_filled(column))) continue;
      Node key;
      key.kind = Node::Kind::scalar;
      key.text = column.word;
      key.where = row[c].where;
      Node value = key;
      value.kind = text.empty() ? Node::Kind::empty : Node::Kind::scalar;
      value.text = numeric_[c] && !text.empty() ? as_number(std::move(text), column) : text;
      value.quoted = true;
      piece.entries.push_back({std::move(key), std::move(value)});
    }
    blocks_.pieces.push_back(std::move(piece));
  }

  std::string as_number(std::string text, const CsvColumn& column) const {
    if (blocks_.told.decimal_comma) std::ranges::replace(text, ',', '.');
    if (digit(text.back()) && !column.unit.empty()) text += " " + column.unit;
    return text;
  }

  const std::vector<CsvRow>& rows_;
  CsvBlocks& blocks_;
  std::vector<bool> numeric_;  ///< one for each column
  int shapes_ = 0;             ///< columns that tell a shape
};

}  // namespace

CsvBlocks read_csv_blocks(std::string_view text, const std::string& file) {
  CsvBlocks blocks;
  CsvTeller teller{blocks.told.findings};
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  auto wrong = wrong_encoding(text, file, kTable);
  if (!wrong) wrong = unseen_character(text, file);
  if (wrong) {
    blocks.told.findings.push_back(*std::move(wrong));
    return blocks;
  }
  const auto rows = even_rows(text, file, teller);
  if (!rows) return blocks;
  blocks.told.separator = rows->separator;
  auto columns = columns_of(rows->rows.front(), teller);
  if (!columns) return blocks;
  blocks.told.columns = *std::move(columns);
  blocks.heading = rows->rows.front();
  if (rows->rows.size() == 1) {
    teller.refuse("empty", blocks.heading.front().where,
                  "no pieces are in this table: it has a heading and no lines below it");
    return blocks;
  }
  RowReader{rows->rows, blocks}.read(teller);
  return blocks;
}

}  // namespace placer::workbook
