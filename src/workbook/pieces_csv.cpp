#include "placer/workbook/pieces_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "workbook/broken_text.h"
#include "workbook/csv_rows.h"
#include "workbook/draft.h"

namespace placer::workbook {
namespace {

/// A value as YAML: numbers bare, everything else in double quotes.
std::string quoted(const std::string& text) {
  const bool bare = !text.empty() && text.find_first_not_of("0123456789.") == std::string::npos;
  if (bare) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c == '\n' || c == '\r' || c == '\t' ? ' ' : c;
  }
  return out + "\"";
}

std::string as_item(const Node& piece) {
  std::string out = "{";
  for (const auto& [key, value] : piece.entries) {
    if (out.size() > 1) out += ", ";
    out += fmt::format("{}: {}", key.text, quoted(value.text));
  }
  return out + "}";
}

std::string in_words(const CsvColumn& column) {
  if (column.word.empty()) return "not used";
  return column.unit.empty() ? column.word : fmt::format("{}, in {}", column.word, column.unit);
}

/// Words that speak of other parts of a studio file cannot be checked in the table alone.
Node by_itself(const Node& piece) {
  Node alone = piece;
  std::erase_if(alone.entries, [](const auto& entry) {
    return entry.first.text == "firing" || entry.first.text == "clay";
  });
  return alone;
}

/// Reads every piece as the studio file's reader would, for its findings.
void check_pieces(const CsvBlocks& blocks, const std::string& file, CsvPieces& told) {
  const Library nothing_known;
  Draft draft = empty_draft(nothing_known, 0);
  draft.desk.file = file;
  draft.studio.batch.clays.emplace_back();
  for (const Node& piece : blocks.pieces) read_piece(by_itself(piece), Stage::fired, draft);
  std::vector<Named> names;
  for (const PieceKind& piece : draft.studio.batch.pieces) {
    names.push_back({piece.name, piece.where});
  }
  tell_repeated(names, "piece", draft.desk);
  std::ranges::move(draft.desk.findings, std::back_inserter(told.findings));
  std::ranges::stable_sort(told.findings, [](const Finding& a, const Finding& b) {
    return std::pair{a.where.line, a.where.column} < std::pair{b.where.line, b.where.column};
  });
}

}  // namespace

std::vector<Node> pieces_from_table(const Node& value, Draft& draft) {
  const std::string_view text = trimmed(value.text);
  const bool table = text.starts_with("from ") && lower_case(text).ends_with(".csv");
  if (!table) {
    draft.desk.mistake("kind", value.where,
                       "\"pieces\" takes a list, or a table beside this file: from pieces.csv");
    return {};
  }
  const std::string name{trimmed(text.substr(5))};
  const auto path = std::filesystem::path{draft.studio.file}.parent_path() / name;
  std::error_code problem;
  const bool beside = name.find("..") == std::string::npos && name.front() != '/';
  std::ifstream stream;
  if (beside && std::filesystem::is_regular_file(path, problem)) {
    stream.open(path, std::ios::binary);
  }
  if (!stream.is_open()) {
    draft.desk.mistake("table", value.where,
                       fmt::format("there is no table \"{}\" beside this file", shortened(name)));
    return {};
  }
  const std::string bytes{std::istreambuf_iterator<char>{stream}, {}};
  CsvBlocks blocks = read_csv_blocks(bytes, path.string());
  std::ranges::move(blocks.told.findings, std::back_inserter(draft.desk.findings));
  for (std::size_t i = 0; i < blocks.told.columns.size(); ++i) {
    const CsvColumn& column = blocks.told.columns[i];
    draft.desk.readings.push_back(
        {blocks.heading[i].where, "column", column.heading, in_words(column)});
  }
  return std::move(blocks.pieces);
}

CsvPieces read_pieces_csv(std::string_view text, const std::string& file) {
  CsvBlocks blocks = read_csv_blocks(text, file);
  CsvPieces told = std::move(blocks.told);
  check_pieces(blocks, file, told);
  if (has_mistakes(told.findings)) return told;
  for (const Node& piece : blocks.pieces) {
    const std::string item = as_item(piece);
    if (told.first_rows.size() < 2) told.first_rows.push_back(item);
    told.yaml += "  - " + item + "\n";
  }
  return told;
}

}  // namespace placer::workbook
