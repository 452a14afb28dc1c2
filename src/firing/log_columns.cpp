#include "log_columns.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "log_text.h"

namespace placer::firing {
namespace {

using Cells = std::vector<std::string_view>;
constexpr std::size_t kLinesLookedAt = 60;

struct Line {
  std::size_t number = 0;  ///< from 0, blank lines and comments counted
  std::string_view text;
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "6:30", "2026-11-25T06:30:00Z", "6h30"
bool looks_like_time(std::string_view cell) {
  if (cell.empty() || !is_digit(cell.front())) {
    return false;
  }
  const std::size_t h = cell.find('h');
  const bool french = h != std::string_view::npos && h > 0 && h <= 2 && h + 2 < cell.size() &&
                      is_digit(cell[h + 1]) && is_digit(cell[h + 2]);
  return french || cell.find(':') != std::string_view::npos;
}

bool looks_like_date(std::string_view cell) {
  int marks = 0;
  int digits = 0;
  int letters = 0;
  for (const char c : cell) {
    marks += c == '-' || c == '/' || c == '.' ? 1 : 0;
    digits += std::isdigit(static_cast<unsigned char>(c)) != 0 ? 1 : 0;
    letters += std::isalpha(static_cast<unsigned char>(c)) != 0 ? 1 : 0;
  }
  return marks == 2 && digits >= 3 && (letters == 0 || letters == 3) &&
         digits + marks + letters == static_cast<int>(cell.size());
}

bool holds_a_figure(std::string_view cell, bool decimal_comma) {
  const std::string_view text = bare(cell);
  return number_of(text, decimal_comma) || looks_like_time(text) || looks_like_date(text);
}

/// The separator that leaves two figures or more on most lines. Blanks only when nothing else does:
/// they stand inside dates and headings too.
char separator_of(const std::vector<Line>& lines) {
  constexpr std::array<char, 4> kCandidates = {';', '\t', ',', ' '};
  char best = ',';
  std::ptrdiff_t most = 0;
  Cells cells;
  for (const char candidate : kCandidates) {
    if (candidate == ' ' && most > 0) {
      break;
    }
    std::ptrdiff_t rows = 0;
    for (const Line& line : lines) {
      cut(line.text, candidate, cells);
      const auto figures = std::count_if(cells.begin(), cells.end(), [](std::string_view cell) {
        return holds_a_figure(cell, true) || holds_a_figure(cell, false);
      });
      rows += figures >= 2 ? 1 : 0;
    }
    if (rows > most) {  // earlier candidates win ties: a comma may be a decimal mark
      most = rows;
      best = candidate;
    }
  }
  return best;
}

/// "12,5": with commas between the cells only where it is quoted.
bool has_decimal_comma(const std::vector<Line>& lines, char separator) {
  Cells cells;
  for (const Line& line : lines) {
    cut(line.text, separator, cells);
    for (const std::string_view cell : cells) {
      const std::string_view number = bare(cell);
      const std::size_t comma = number.find(',');
      const bool alone = comma != std::string_view::npos && comma > 0 &&
                         number.find('.') == std::string_view::npos;
      const std::size_t after = number.size() - comma - 1;
      if (alone && (separator != ',' || after != 3) && number_of(number, true)) {
        return true;
      }
    }
  }
  return false;
}

/// The first line that begins a table: two figures or more, and a time or a number in front.
std::size_t first_row(const std::vector<Line>& lines, const Columns& columns) {
  Cells cells;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    cut(lines[i].text, columns.separator, cells);
    const auto figures = std::count_if(cells.begin(), cells.end(), [&](std::string_view cell) {
      return holds_a_figure(cell, columns.decimal_comma);
    });
    if (figures >= 2 && !is_comment(lines[i].text)) {
      return i;
    }
  }
  return lines.size();
}

/// The line right above the first row, with no figure in it, names the columns; a comment may be
/// it.
std::optional<std::size_t> heading_above(const std::vector<Line>& lines, std::size_t row,
                                         const Columns& columns) {
  if (row == 0) {
    return std::nullopt;
  }
  Cells cells;
  cut(lines[row - 1].text, columns.separator, cells);
  const bool figures = std::any_of(cells.begin(), cells.end(), [&](std::string_view cell) {
    return holds_a_figure(cell, columns.decimal_comma);
  });
  return cells.size() >= 2 && !figures ? std::optional{row - 1} : std::nullopt;
}

/// The row with the most cells: a note need not stand in the first one.
std::string_view widest(const std::vector<Line>& lines, std::size_t row, char separator) {
  std::string_view best = lines[row].text;
  std::size_t most = 0;
  Cells cells;
  for (std::size_t i = row; i < lines.size(); ++i) {
    cut(lines[i].text, separator, cells);
    if (cells.size() > most && !is_comment(lines[i].text)) {
      most = cells.size();
      best = lines[i].text;
    }
  }
  return best;
}

/// Without a heading: the first date, the first time or number, then the first number.
void guess_columns(Columns& columns, const Cells& cells) {
  int next = 0;
  const int count = static_cast<int>(cells.size());
  const auto text = [&](int i) { return bare(cells[static_cast<std::size_t>(i)]); };
  if (count > 2 && looks_like_date(text(0)) && looks_like_time(text(1))) {
    columns.date = 0;
    next = 1;
  }
  columns.time = next++;
  columns.temperature = next++;
  if (next < count && number_of(text(next), columns.decimal_comma)) {
    columns.probe = next++;
  }
  if (next < count) {
    columns.note = next;
  }
}

/// "0630", "1015": whole numbers that all read as a clock without its colon, hours among them.
bool is_clock_without_colon(const std::vector<Line>& lines, std::size_t row,
                            const Columns& columns) {
  Cells cells;
  std::size_t rows = 0;
  bool hours = false;
  bool padded = false;
  for (std::size_t i = row; i < lines.size(); ++i) {
    cut(lines[i].text, columns.separator, cells);
    if (static_cast<std::size_t>(columns.time) >= cells.size()) {
      continue;
    }
    const std::string_view cell = bare(cells[static_cast<std::size_t>(columns.time)]);
    const bool digits =
        !cell.empty() && cell.size() <= 4 &&
        std::all_of(cell.begin(), cell.end(), [](char c) { return c >= '0' && c <= '9'; });
    const auto value = digits ? number_of(cell, false) : std::nullopt;
    if (!value || *value > 2359 || static_cast<int>(*value) % 100 > 59) {
      return false;
    }
    hours = hours || *value >= 600;
    padded = padded || (cell.size() == 4 && cell.front() == '0');
    ++rows;
  }
  return rows >= 2 && hours && (padded || rows >= 8);
}

}  // namespace

Columns look_at(std::string_view text) {
  std::vector<Line> lines;
  std::size_t at = 0;
  std::size_t number = 0;
  while (lines.size() < kLinesLookedAt) {
    const auto line = next_line(text, at);
    if (!line) {
      break;
    }
    if (!bare(*line).empty()) {
      lines.push_back({number, *line});
    }
    ++number;
  }
  Columns columns;
  if (lines.empty()) {
    return columns;
  }
  std::vector<Line> rows = lines;
  std::erase_if(rows, [](const Line& line) { return is_comment(line.text); });
  columns.separator = separator_of(rows);
  columns.decimal_comma = has_decimal_comma(rows, columns.separator);
  const std::size_t row = first_row(lines, columns);
  const auto heading = heading_above(lines, row, columns);
  if (heading || row < lines.size()) {
    columns.skip = row < lines.size() ? lines[row].number : lines[*heading].number + 1;
  }
  Cells cells;
  if (heading) {
    cut(lines[*heading].text, columns.separator, cells);
    read_heading(columns, cells);
  } else if (row < lines.size()) {
    cut(widest(lines, row, columns.separator), columns.separator, cells);
    guess_columns(columns, cells);
  }
  if (columns.unit == TimeUnit::unknown && columns.date < 0 &&
      is_clock_without_colon(lines, row, columns)) {
    columns.unit = TimeUnit::hhmm;
  }
  return columns;
}

}  // namespace placer::firing
