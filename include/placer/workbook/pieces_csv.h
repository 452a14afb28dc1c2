/// @file pieces_csv.h
/// A list of pieces kept as a table (CSV), as spreadsheets of many countries write it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "placer/base/error.h"

namespace placer::workbook {

/// One column of the table and how it was understood.
struct CsvColumn {
  std::string heading;  ///< as given
  std::string word;     ///< the piece's word that it fills: "height"; "" = not used
  std::string unit;     ///< "mm" from "Height (mm)", else ""
};

/// A table of pieces, turned into the `pieces:` part of a studio file.
struct CsvPieces {
  char separator = ',';
  bool decimal_comma = false;
  std::vector<CsvColumn> columns;
  int rows = 0;
  std::string yaml;  ///< list items, one line a piece: "  - {name: Mug, count: 24, ...}\n"
  std::vector<std::string> first_rows;  ///< the first two pieces as understood, to be shown
  std::vector<Finding> findings;        ///< with line and column of the table; no yaml if mistakes
};

/// Reads a table with a heading line. Separator (, ; tab), decimal comma and byte order mark are
/// found out; whatever can be read in two ways is refused with a mistake. Up to 100,000 rows.
/// @param text the whole file, UTF-8.
CsvPieces read_pieces_csv(std::string_view text, const std::string& file);

}  // namespace placer::workbook
