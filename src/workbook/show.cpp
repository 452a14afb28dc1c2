#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "placer/workbook/studio.h"
#include "workbook/lines.h"

namespace placer::workbook {
namespace {

constexpr std::string_view kBold = "\x1b[1m";
constexpr std::string_view kStrong = "\x1b[31;1m";
constexpr std::string_view kPlain = "\x1b[0m";

struct Range {
  char32_t from, to;
};

/// Letters that take two places on a terminal; after Unicode's East Asian width table (UAX #11),
/// the ranges that people write names in.
constexpr std::array kWide = {
    Range{0x1100, 0x115F},   Range{0x231A, 0x231B},   Range{0x23E9, 0x23EC},
    Range{0x25FD, 0x25FE},   Range{0x2614, 0x2615},   Range{0x2648, 0x2653},
    Range{0x26A1, 0x26A1},   Range{0x26C4, 0x26C5},   Range{0x2705, 0x2705},
    Range{0x2728, 0x2728},   Range{0x274C, 0x274C},   Range{0x2753, 0x2757},
    Range{0x2795, 0x2797},   Range{0x2B50, 0x2B50},   Range{0x2E80, 0x303E},
    Range{0x3041, 0x33FF},   Range{0x3400, 0x4DBF},   Range{0x4E00, 0x9FFF},
    Range{0xA000, 0xA4CF},   Range{0xA960, 0xA97F},   Range{0xAC00, 0xD7A3},
    Range{0xF900, 0xFAFF},   Range{0xFE30, 0xFE6F},   Range{0xFF00, 0xFF60},
    Range{0xFFE0, 0xFFE6},   Range{0x1F300, 0x1F64F}, Range{0x1F680, 0x1F6FF},
    Range{0x1F900, 0x1F9FF}, Range{0x20000, 0x3FFFD}};

/// Marks that sit on the letter before them, and things that cannot be seen.
constexpr std::array kNone = {Range{0x0300, 0x036F}, Range{0x0483, 0x0489}, Range{0x0591, 0x05BD},
                              Range{0x064B, 0x065F}, Range{0x0E31, 0x0E31}, Range{0x0E34, 0x0E3A},
                              Range{0x0E47, 0x0E4E}, Range{0x1AB0, 0x1AFF}, Range{0x1DC0, 0x1DFF},
                              Range{0x200B, 0x200F}, Range{0x20D0, 0x20FF}, Range{0xFE00, 0xFE0F},
                              Range{0xFE20, 0xFE2F}, Range{0xFEFF, 0xFEFF}};

int places(char32_t c) {
  const auto within = [c](const Range& range) { return c >= range.from && c <= range.to; };
  if (std::ranges::any_of(kNone, within)) return 0;
  return std::ranges::any_of(kWide, within) ? 2 : 1;
}

/// A line's characters with the places that each takes; a tab becomes blanks.
struct Drawn {
  std::string text;
  std::vector<int> places;  ///< one for each character
};

Drawn drawn(std::string_view line) {
  Drawn out;
  for (std::size_t i = 0; i < line.size();) {
    const auto lead = static_cast<unsigned char>(line[i]);
    std::size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    length = std::min(length, line.size() - i);
    char32_t c = length == 1 ? lead : lead & (0x7FU >> length);
    for (std::size_t k = 1; k < length; ++k) {
      c = (c << 6U) | (static_cast<unsigned char>(line[i + k]) & 0x3FU);
    }
    const bool hidden = c < 0x20 || c == 0x7F;
    out.text += hidden ? " " : std::string{line.substr(i, length)};
    out.places.push_back(hidden ? 1 : places(c));
    i += length;
  }
  return out;
}

int places_before(const Drawn& line, int column) {
  int sum = 0;
  for (int i = 0; i + 1 < column && i < static_cast<int>(line.places.size()); ++i) {
    sum += line.places[static_cast<std::size_t>(i)];
  }
  return sum;
}

std::string help_for(const Finding& finding) {
  if (!finding.suggestion) return "";
  if (finding.severity == Severity::look) return " to settle it, write  " + *finding.suggestion;
  if (finding.suggestion->starts_with('"')) return " did you mean " + *finding.suggestion + "?";
  return fmt::format(" did you mean \"{}\"?", *finding.suggestion);
}

/// "\r\n" and "\r" become "\n", a byte order mark goes: as the reader counts lines.
std::string as_read(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool pair = text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n';
    if (!pair) plain += text[i] == '\r' ? '\n' : text[i];
  }
  return plain;
}

/// Bytes of the first `count` characters.
std::size_t bytes_of(std::string_view text, int count) {
  std::size_t i = 0;
  for (int seen = 0; i < text.size(); ++i) {
    const bool begins = (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U;
    if (begins && ++seen > count) break;
  }
  return i;
}

/// The line and the carets under the word; of a long line the part round the word. Nothing for a
/// line that is not UTF-8.
std::string excerpt(const Finding& finding, std::string_view text, bool colour) {
  constexpr int kMostShown = 150;
  const std::string plain = as_read(text);
  const Lines lines{plain};
  std::string_view line = lines.line(finding.where.line - 1);
  if (finding.where.line > lines.count()) return "";
  if (first_not_utf8(line) != std::string_view::npos) return "";
  int column = finding.where.column;
  int end_column = std::max(finding.where.end_column, column + 1);
  std::string_view dots;
  if (characters(line) > kMostShown) {
    const int skipped = std::max(0, column - kMostShown / 2);
    line = line.substr(bytes_of(line, skipped));
    line = line.substr(0, bytes_of(line, kMostShown));
    dots = skipped > 0 ? "..." : "";
    column -= skipped;
    end_column = std::min(end_column - skipped, kMostShown + 1);
  }
  const Drawn shown = drawn(line);
  const int begin = places_before(shown, column);
  const int end = std::max(begin + 1, places_before(shown, end_column));
  const auto width = [](int n) { return static_cast<std::size_t>(std::max(0, n)); };
  const std::string number = fmt::format("{:4}", finding.where.line);
  return fmt::format("{} | {}{}\n{} | {}{}{}{}{}\n", number, dots, shown.text,
                     std::string(number.size(), ' '), std::string(width(begin) + dots.size(), ' '),
                     colour ? kStrong : "", std::string(width(end - begin), '^'),
                     colour ? kPlain : "", help_for(finding));
}

}  // namespace

std::string show(const Finding& finding, std::string_view text, bool colour) {
  const std::string place = to_string(finding.where);
  std::string out =
      fmt::format("{}{}{}{}\n", colour ? kBold : "", place.empty() ? "" : place + ": ",
                  finding.message, colour ? kPlain : "");
  const std::string lines = text.empty() || finding.where.line <= 0 || finding.where.column <= 0
                                ? ""
                                : excerpt(finding, text, colour);
  if (!lines.empty()) return out + lines;
  const std::string help = help_for(finding);
  return help.empty() ? out : out + "    " + help + "\n";
}

}  // namespace placer::workbook
