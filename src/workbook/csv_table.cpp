#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "workbook/csv_rows.h"
#include "workbook/encoding.h"
#include "workbook/measure.h"

namespace placer::workbook {
namespace {

constexpr std::size_t kMostRows = 100'000;
constexpr std::size_t kJudged = 200'000;  ///< bytes that choose the separator
constexpr std::array kSeparators = {',', ';', '\t'};

std::string spoken(char separator) {
  return separator == '\t' ? "a tab" : fmt::format("\"{}\"", separator);
}

std::string fields(std::size_t n) { return fmt::format("{} field{}", n, n == 1 ? "" : "s"); }

bool blank(const CsvField& field) { return trimmed(field.text).empty(); }

/// Spreadsheets write the separator as often as the widest line needs it.
void drop_empty_ends(CsvRow& row, std::size_t wide) {
  while (row.size() > wide && blank(row.back())) row.pop_back();
}

/// What a first line "sep=;" says: some programs write it above the heading.
std::optional<char> announced(std::string_view text) {
  for (const char separator : kSeparators) {
    const std::string line = std::string{"sep="} + separator;
    if (text.starts_with(line + "\n") || text.starts_with(line + "\r")) return separator;
  }
  return std::nullopt;
}

/// How well a separator suits the table: all lines as wide as the heading, and how wide.
struct Suits {
  char separator = ',';
  std::size_t wide = 0;
  bool even = false;
};

Suits judged(std::string_view text, char separator, const std::string& file) {
  CsvTable table = cut(text.substr(0, kJudged), separator, file);
  if (text.size() > kJudged && table.rows.size() > 1) table.rows.pop_back();  // cut in its middle
  if (table.rows.empty()) return {separator, 0, false};
  const std::size_t wide = table.rows.front().size();
  const bool even = std::ranges::all_of(table.rows, [&](CsvRow& row) {
    drop_empty_ends(row, wide);
    return row.size() == wide;
  });
  return {separator, wide, even && wide > 1};
}

/// The one separator that cuts every line into as many fields as the first; else the one that cuts
/// the first most often.
std::optional<char> separator_of(std::string_view text, const std::string& file,
                                 CsvTeller& teller) {
  if (const auto said = announced(text)) return said;
  std::vector<char> even;
  Suits best;
  for (const char separator : kSeparators) {
    const Suits suits = judged(text, separator, file);
    if (suits.even) even.push_back(separator);
    if (suits.wide > best.wide) best = suits;
  }
  if (even.size() > 1) {
    teller.refuse("table", TextPos{file, 1, 1, 2},
                  fmt::format("{} or {} could part the columns here: put fields that hold one of "
                              "them in quotes",
                              spoken(even[0]), spoken(even[1])));
    return std::nullopt;
  }
  return even.empty() ? best.separator : even.front();
}

/// Lines that are wider or narrower than the heading: all of them are told.
bool all_even(std::vector<CsvRow>& rows, char separator, CsvTeller& teller) {
  const std::size_t wide = rows.front().size();
  bool even = true;
  for (CsvRow& row : rows) {
    drop_empty_ends(row, wide);
    if (row.size() == wide) continue;
    even = false;
    const std::string_view cure = row.size() > wide
                                      ? "a field with {} in it needs quotes"
                                      : "is {} missing, or does something else part its fields?";
    teller.refuse("table", row.size() > wide ? row[wide].where : row.back().where,
                  fmt::format("this line has {}, and the heading {}: {}", fields(row.size()), wide,
                              fmt::format(fmt::runtime(cure), spoken(separator))));
  }
  return even;
}

bool sound_quotes(const CsvTable& table, char separator, CsvTeller& teller) {
  if (table.open_quote) {
    teller.refuse("quotes", *table.open_quote, "this quote is never closed");
  } else if (table.after_quote) {
    teller.refuse("quotes", *table.after_quote,
                  fmt::format("after a closing quote comes {} or the end of the line; a quote "
                              "within quotes is written twice",
                              spoken(separator)));
  }
  return !table.open_quote && !table.after_quote;
}

}  // namespace

void CsvTeller::refuse(std::string code, const TextPos& where, std::string message,
                       std::optional<std::string> suggestion) {
  findings_.push_back(
      {Severity::mistake, std::move(code), std::move(message), where, std::move(suggestion)});
}

void CsvTeller::look(std::string code, const TextPos& where, std::string message) {
  findings_.push_back({Severity::look, std::move(code), std::move(message), where, std::nullopt});
}

std::optional<CsvRows> even_rows(std::string_view text, const std::string& file, CsvTeller teller) {
  const TextPos beginning{file, 1, 1, 2};
  const auto separator = separator_of(text, file, teller);
  if (!separator) return std::nullopt;
  CsvTable table = cut(text, *separator, file);
  if (announced(text)) table.rows.erase(table.rows.begin());
  std::erase_if(table.rows, [](const CsvRow& row) { return std::ranges::all_of(row, blank); });
  if (table.rows.empty()) {
    teller.refuse("empty", beginning, "this table is empty");
    return std::nullopt;
  }
  if (!sound_quotes(table, *separator, teller)) return std::nullopt;
  if (table.rows.front().size() < 2) {
    teller.refuse("table", table.rows.front().front().where,
                  "the first line must name the columns, parted by commas, semicolons or tabs, for "
                  "example: name, count, across, height");
    return std::nullopt;
  }
  if (table.rows.size() > kMostRows + 1) {
    teller.refuse("large", table.rows[kMostRows + 1].front().where,
                  fmt::format("more than {} lines: split the table", kMostRows));
    return std::nullopt;
  }
  if (!all_even(table.rows, *separator, teller)) return std::nullopt;
  return CsvRows{*separator, std::move(table.rows)};
}

}  // namespace placer::workbook
