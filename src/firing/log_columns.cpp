#include "log_columns.h"

#include <array>
#include <cctype>
#include <charconv>

namespace placer::firing {
namespace {

std::string lower(std::string_view text) {
  std::string out{text};
  for (char& c : out) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

bool has(const std::string& text, std::string_view word) {
  return text.find(word) != std::string::npos;
}

/// The separator that cuts most of the first lines into the same number of cells, two or more.
char separator_of(const std::vector<std::string_view>& lines) {
  constexpr std::array<char, 3> kCandidates = {';', '\t', ','};
  char best = ',';
  std::size_t most = 0;
  std::vector<std::string_view> cells;
  for (const char candidate : kCandidates) {
    std::array<std::size_t, 33> by_count{};
    for (const std::string_view line : lines) {
      cut(line, candidate, cells);
      ++by_count[std::min<std::size_t>(cells.size(), 32)];
    }
    std::size_t agreed = 0;
    for (std::size_t n = 2; n < by_count.size(); ++n) {
      agreed = std::max(agreed, by_count[n]);
    }
    if (agreed > most) {  // earlier candidates win ties: a comma may be a decimal mark
      most = agreed;
      best = candidate;
    }
  }
  return best;
}

bool looks_like_time(std::string_view cell) {
  return cell.find(':') != std::string_view::npos && !cell.empty() &&
         std::isdigit(static_cast<unsigned char>(cell.front())) != 0;
}

bool looks_like_date(std::string_view cell) {
  int marks = 0;
  int digits = 0;
  for (const char c : cell) {
    marks += c == '-' || c == '/' || c == '.' ? 1 : 0;
    digits += std::isdigit(static_cast<unsigned char>(c)) != 0 ? 1 : 0;
  }
  return marks == 2 && digits >= 4 && digits + marks == static_cast<int>(cell.size());
}

/// A heading has a letter in most cells and no number in the first.
bool is_heading(const std::vector<std::string_view>& cells, bool decimal_comma) {
  std::size_t numbers = 0;
  for (const std::string_view cell : cells) {
    const std::string_view text = bare(cell);
    numbers += number_of(text, decimal_comma) || looks_like_time(text) || looks_like_date(text);
  }
  return numbers == 0;
}

void read_unit(Columns& columns, const std::string& name) {
  if (has(name, "min")) {
    columns.unit = TimeUnit::minutes;
  } else if (has(name, "sec") || has(name, "sek") || has(name, "(s)") || has(name, "[s]")) {
    columns.unit = TimeUnit::seconds;
  } else if (has(name, "hour") || has(name, "(h)") || has(name, "[h]") || has(name, "stunde")) {
    columns.unit = TimeUnit::hours;
  }
}

void read_heading(Columns& columns, const std::vector<std::string_view>& cells) {
  int time = -1;
  int temperature = -1;
  for (int i = 0; i < static_cast<int>(cells.size()); ++i) {
    const std::string name = lower(bare(cells[static_cast<std::size_t>(i)]));
    if (has(name, "mv") || has(name, "probe") || has(name, "millivolt")) {
      columns.probe = i;
    } else if (has(name, "note") || has(name, "remark") || has(name, "comment") ||
               has(name, "bemerk")) {
      columns.note = i;
    } else if (has(name, "date") || has(name, "datum")) {
      (has(name, "time") ? time : columns.date) = i;
    } else if (temperature < 0 && (has(name, "temp") || has(name, "°c") || has(name, "°f") ||
                                   has(name, "kiln") || name == "c" || name == "f")) {
      temperature = i;
      if (has(name, "°f") || has(name, "fahrenheit") || has(name, "(f)") || has(name, "[f]") ||
          has(name, "_f") || name == "f" || has(name, "temp f") || has(name, "degf")) {
        columns.scale = Scale::fahrenheit;
      } else if (has(name, "°c") || has(name, "celsius") || has(name, "(c)") || has(name, "[c]") ||
                 has(name, "_c") || name == "c" || has(name, "temp c") || has(name, "degc")) {
        columns.scale = Scale::celsius;
      }
    } else if (time < 0 && (has(name, "time") || has(name, "zeit") || has(name, "hour") ||
                            has(name, "uhr") || has(name, "min") || has(name, "sec") ||
                            has(name, "elapsed") || name == "h" || name == "s")) {
      time = i;
      read_unit(columns, name);
      columns.unit = name == "h" ? TimeUnit::hours : name == "s" ? TimeUnit::seconds : columns.unit;
    }
  }
  if (time < 0 && columns.date >= 0) {
    time = columns.date;
    columns.date = -1;
  }
  columns.time = time >= 0 ? time : 0;
  columns.temperature = temperature >= 0 ? temperature : columns.time == 0 ? 1 : 0;
}

/// Without a heading: the first date, the first time or number, then the first number.
void guess_columns(Columns& columns, const std::vector<std::string_view>& cells) {
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
      cells.push_back(line.substr(begin, i - begin));
      begin = i + 1;
    }
  }
  cells.push_back(line.substr(begin));
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
  const char* end = nullptr;
  if (decimal_comma && cell.find(',') != std::string_view::npos) {
    std::array<char, 40> copy{};
    if (cell.size() >= copy.size()) {
      return std::nullopt;
    }
    for (std::size_t i = 0; i < cell.size(); ++i) {
      copy[i] = cell[i] == ',' ? '.' : cell[i];
    }
    const auto read = std::from_chars(copy.data(), copy.data() + cell.size(), value);
    if (read.ec != std::errc{}) {
      return std::nullopt;
    }
    end = cell.data() + (read.ptr - copy.data());
  } else {
    const auto read = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    if (read.ec != std::errc{}) {
      return std::nullopt;
    }
    end = read.ptr;
  }
  std::string_view rest = cell.substr(static_cast<std::size_t>(end - cell.data()));
  while (!rest.empty() &&
         (rest.front() == ' ' || static_cast<unsigned char>(rest.front()) >= 128)) {
    rest.remove_prefix(1);  // blank, degree sign
  }
  if (rest.size() > 8) {
    return std::nullopt;
  }
  for (const char c : rest) {
    if (std::isalpha(static_cast<unsigned char>(c)) == 0 && c != '/') {
      return std::nullopt;
    }
  }
  if (unit != nullptr) {
    *unit = rest.empty()
                ? '\0'
                : static_cast<char>(std::tolower(static_cast<unsigned char>(rest.front())));
  }
  return value;
}

Columns look_at(std::string_view text) {
  std::vector<std::string_view> lines;
  std::size_t at = 0;
  while (lines.size() < 40) {
    const auto line = next_line(text, at);
    if (!line) {
      break;
    }
    if (!bare(*line).empty()) {
      lines.push_back(*line);
    }
  }
  Columns columns;
  if (lines.empty()) {
    return columns;
  }
  columns.separator = separator_of(lines);
  std::vector<std::string_view> cells;
  if (columns.separator != ',') {
    for (const std::string_view line : lines) {
      cut(line, columns.separator, cells);
      for (const std::string_view cell : cells) {
        const std::string_view number = bare(cell);
        const std::size_t comma = number.find(',');
        columns.decimal_comma |=
            comma != std::string_view::npos && comma > 0 && number_of(number, true).has_value();
      }
    }
  }
  cut(lines.front(), columns.separator, cells);
  columns.heading = is_heading(cells, columns.decimal_comma);
  if (columns.heading) {
    read_heading(columns, cells);
  } else {
    guess_columns(columns, cells);
  }
  return columns;
}

}  // namespace placer::firing
