/// Cells and numbers of a log.
#include <array>
#include <cctype>
#include <charconv>

#include "log_columns.h"

namespace placer::firing {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }

/// The number that the cell begins with, as from_chars wants it: no thousands' marks, a point.
struct Cleaned {
  std::array<char, 40> text{};
  std::size_t size = 0;
  std::size_t used = 0;  ///< letters of the cell that it stands for
};

/// True when `mark` at `at` parts thousands: exactly three digits behind it, and digits before.
bool parts_thousands(std::string_view cell, std::size_t at) {
  std::size_t digits = 0;
  while (at + 1 + digits < cell.size() && digit(cell[at + 1 + digits])) {
    ++digits;
  }
  return at > 0 && digits == 3;
}

std::optional<Cleaned> cleaned(std::string_view cell, bool decimal_comma) {
  const bool both =
      cell.find(',') != std::string_view::npos && cell.find('.') != std::string_view::npos;
  const char decimal =
      both ? (cell.rfind(',') > cell.rfind('.') ? ',' : '.') : (decimal_comma ? ',' : '.');
  Cleaned out;
  for (std::size_t i = 0; i < cell.size(); ++i) {
    const char c = cell[i];
    const bool mark = (c == ',' || c == '.') && c != decimal;
    if ((mark || c == '\'') && i > 0 && digit(cell[i - 1]) && parts_thousands(cell, i)) {
      continue;
    }
    if (mark || c == '\'' || out.size + 1 >= out.text.size()) {
      break;
    }
    const bool number = digit(c) || c == decimal || c == '-' || c == '+' || c == 'e' || c == 'E';
    if (!number) {
      break;
    }
    out.text[out.size++] = c == decimal ? '.' : c;
    out.used = i + 1;
  }
  return out.size > 0 ? std::optional{out} : std::nullopt;
}

/// What may stand behind a number: blanks, a degree sign in any coding, a unit of a few letters.
bool is_unit(std::string_view rest, char* unit) {
  while (!rest.empty() &&
         (rest.front() == ' ' || static_cast<unsigned char>(rest.front()) >= 128)) {
    rest.remove_prefix(1);
  }
  if (rest.size() > 8) {
    return false;
  }
  for (const char c : rest) {
    if (std::isalpha(static_cast<unsigned char>(c)) == 0 && c != '/') {
      return false;
    }
  }
  if (unit != nullptr) {
    *unit = rest.empty()
                ? '\0'
                : static_cast<char>(std::tolower(static_cast<unsigned char>(rest.front())));
  }
  return true;
}

std::optional<double> read_slowly(std::string_view cell, bool decimal_comma, char* unit) {
  const auto clean = cleaned(cell, decimal_comma);
  if (!clean) {
    return std::nullopt;
  }
  double value = 0;
  const char* end = clean->text.data() + clean->size;
  const auto read = std::from_chars(clean->text.data(), end, value);
  if (read.ec != std::errc{} || (read.ptr != end && clean->used != clean->size)) {
    return std::nullopt;
  }
  const std::size_t unread = static_cast<std::size_t>(end - read.ptr);
  return is_unit(cell.substr(clean->used - unread), unit) ? std::optional{value} : std::nullopt;
}

}  // namespace

std::string_view bare(std::string_view cell) {
  while (!cell.empty() && (cell.front() == ' ' || cell.front() == '"' || cell.front() == '\t')) {
    cell.remove_prefix(1);
  }
  while (!cell.empty() &&
         (cell.back() == ' ' || cell.back() == '"' || cell.back() == '\t' || cell.back() == '\r')) {
    cell.remove_suffix(1);
  }
  return cell;
}

void cut(std::string_view line, char separator, std::vector<std::string_view>& cells) {
  cells.clear();
  std::size_t begin = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '"') {
      quoted = !quoted;
    } else if (line[i] == separator && !quoted) {
      if (separator != ' ' || i > begin) {
        cells.push_back(line.substr(begin, i - begin));
      }
      begin = i + 1;
    }
  }
  if (separator != ' ' || begin < line.size()) {
    cells.push_back(line.substr(begin));
  }
}

std::optional<std::string_view> next_line(std::string_view text, std::size_t& at) {
  if (at >= text.size()) {
    return std::nullopt;
  }
  std::size_t end = text.find('\n', at);
  end = end == std::string_view::npos ? text.size() : end;
  std::string_view line = text.substr(at, end - at);
  at = end + 1;
  if (!line.empty() && line.back() == '\r') {
    line.remove_suffix(1);
  }
  return line;
}

std::optional<double> number_of(std::string_view cell, bool decimal_comma, char* unit) {
  cell = bare(cell);
  if (!cell.empty() && cell.front() == '+') {
    cell.remove_prefix(1);
  }
  double value = 0;
  const auto read = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  const bool plain = read.ec == std::errc{};
  if (plain && read.ptr == cell.data() + cell.size() && !decimal_comma) {  // nearly every cell
    if (unit != nullptr) {
      *unit = '\0';
    }
    return value;
  }
  if (!plain) {
    return std::nullopt;
  }
  return read_slowly(cell, decimal_comma, unit);
}

}  // namespace placer::firing
