#include <fmt/format.h>

#include <charconv>

#include "workbook/measure.h"

namespace placer::workbook {

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\n");
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t\n") - begin + 1);
}

std::string lower_case(std::string_view text) {
  std::string out{text};
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::optional<double> plain_decimal(std::string_view text) {
  const bool plain = !text.empty() && text.size() <= 40 &&
                     text.find_first_not_of("0123456789.") == std::string_view::npos &&
                     text.back() != '.';
  if (!plain) return std::nullopt;
  double value = 0;
  const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (problem != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::string plain_number(double value) {
  std::string text = fmt::format("{:.2f}", value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

}  // namespace placer::workbook
