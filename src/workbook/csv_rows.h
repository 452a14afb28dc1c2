/// @file csv_rows.h
/// A table of pieces as blocks of words, ready for the reader of pieces. Internal to workbook/.
#pragma once

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

/// A table cut into fields by one separator, empty lines left out (RFC 4180; line ends of any
/// kind).
struct CsvTable {
  std::vector<std::vector<CsvField>> rows;
  std::optional<TextPos> open_quote;  ///< a quote that is never closed
};
CsvTable cut(std::string_view text, char separator, const std::string& file);

/// What a table says: one map node for each piece, with the places of the table.
struct CsvBlocks {
  CsvPieces told;  ///< all but `yaml` and `first_rows`
  std::vector<Node> pieces;
};
CsvBlocks read_csv_blocks(std::string_view text, const std::string& file);

}  // namespace placer::workbook
