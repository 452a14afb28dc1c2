/// @file csv_rows.h
/// A table of pieces as blocks of words, ready for the reader of pieces. Internal to workbook/.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "placer/workbook/pieces_csv.h"
#include "workbook/tree.h"

namespace placer::workbook {

/// One field of a table and where it begins.
struct CsvField {
  std::string text;
  TextPos where;
};
using CsvRow = std::vector<CsvField>;

/// A table cut into fields by one separator, empty lines left out (RFC 4180; line ends of any
/// kind).
struct CsvTable {
  std::vector<CsvRow> rows;
  std::optional<TextPos> open_quote;   ///< a quote that is never closed
  std::optional<TextPos> after_quote;  ///< something between a closing quote and the separator
};
CsvTable cut(std::string_view text, char separator, const std::string& file);

/// The findings of one table, in the order found.
class CsvTeller {
 public:
  explicit CsvTeller(std::vector<Finding>& findings) : findings_{findings} {}
  void refuse(std::string code, const TextPos& where, std::string message,
              std::optional<std::string> suggestion = std::nullopt);
  void look(std::string code, const TextPos& where, std::string message);

 private:
  std::vector<Finding>& findings_;
};

/// The table's rows, each as wide as the heading, and what parts their fields; nothing after a
/// mistake. Rows without anything in them are left out.
struct CsvRows {
  char separator = ',';
  std::vector<CsvRow> rows;  ///< the heading first
};
std::optional<CsvRows> even_rows(std::string_view text, const std::string& file, CsvTeller teller);

/// What each column of the heading fills; nothing after a mistake.
std::optional<std::vector<CsvColumn>> columns_of(const CsvRow& heading, CsvTeller teller);

/// What a table says: one map node for each piece, with the places of the table.
struct CsvBlocks {
  CsvPieces told;  ///< all but `yaml` and `first_rows`
  std::vector<Node> pieces;
  CsvRow heading;  ///< as long as told.columns
};
CsvBlocks read_csv_blocks(std::string_view text, const std::string& file);

}  // namespace placer::workbook
