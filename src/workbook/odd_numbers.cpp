#include "workbook/odd_numbers.h"

#include <fmt/format.h>

#include <algorithm>

#include "workbook/broken_text.h"
#include "workbook/cursor.h"

namespace placer::workbook {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }

/// "12,5", the comma of many countries; but "1,200" can be a thousand too.
std::optional<Oddity> comma_within(std::string_view text) {
  const std::size_t comma = text.find(',');
  const bool between = comma != std::string_view::npos && comma > 0 && comma + 1 < text.size() &&
                       digit(text[comma - 1]) && digit(text[comma + 1]);
  if (!between) return std::nullopt;
  const std::size_t end = std::min(text.find_first_not_of("0123456789", comma + 1), text.size());
  if (end - comma == 4) {
    return Oddity{fmt::format("\"{}\" can mean thousands or decimals: write it without a comma",
                              shortened(text)),
                  std::nullopt};
  }
  std::string pointed{text};
  pointed[comma] = '.';
  return Oddity{"a decimal comma is not understood here: write a point", pointed};
}

/// "1e3", "1.5E+3 mm".
std::optional<Oddity> power_of_ten(std::string_view text) {
  const std::size_t letter = text.find_first_not_of("0123456789.");
  if (letter == 0 || letter >= text.size() || (text[letter] != 'e' && text[letter] != 'E')) {
    return std::nullopt;
  }
  std::string_view power = text.substr(letter + 1);
  if (power.starts_with('+') || power.starts_with('-')) power.remove_prefix(1);
  if (power.empty() || !digit(power.front())) return std::nullopt;
  return Oddity{
      fmt::format("\"{}\" has a power of ten in it: write the number out", shortened(text)),
      std::nullopt};
}

/// "80-90", "80 to 90", "80–90 mm".
std::optional<Oddity> range(std::string_view text) {
  Cursor cursor{text};
  if (!cursor.number()) return std::nullopt;
  cursor.skip_blanks();
  bool dash = false;
  for (const std::string_view sign : {"-", "–", "—", "to ", ".."}) dash = dash || cursor.take(sign);
  cursor.skip_blanks();
  if (!dash || !cursor.number()) return std::nullopt;
  return Oddity{
      fmt::format("\"{}\" is a range, and one number is needed: the larger is the safe one",
                  shortened(text)),
      std::nullopt};
}

/// Blanks that do not break a line, and the wide figures of East Asian keyboards.
std::optional<Oddity> odd_letters(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::string_view rest = text.substr(i);
    const bool wide = rest.size() >= 3 && rest.starts_with("\xEF\xBC") &&
                      static_cast<unsigned char>(rest[2]) >= 0x90 &&
                      static_cast<unsigned char>(rest[2]) <= 0x99;
    if (rest.starts_with("\u00A0")) {
      plain += ' ';
      i += 1;
    } else if (rest.starts_with("\u202F") || rest.starts_with("\u2009")) {
      plain += ' ';
      i += 2;
    } else if (wide) {
      plain += static_cast<char>(static_cast<unsigned char>(rest[2]) - 0x90 + '0');
      i += 2;
    } else {
      plain += text[i];
    }
  }
  if (plain == text) return std::nullopt;
  return Oddity{"this number is written with figures or blanks of another kind: type it again",
                plain};
}

}  // namespace

std::optional<Oddity> oddity_in(std::string_view text) {
  for (const auto odd : {comma_within, power_of_ten, range, odd_letters}) {
    if (auto found = odd(text)) return found;
  }
  return std::nullopt;
}

}  // namespace placer::workbook
