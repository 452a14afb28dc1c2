#include "workbook/lines.h"

#include <algorithm>

namespace placer::workbook {
namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

/// Bytes of the character that begins with `lead`; 0 when none can.
std::size_t length_from_lead(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead < 0xE0) return 2;
  if (lead >= 0xE0 && lead < 0xF0) return 3;
  if (lead >= 0xF0 && lead < 0xF5) return 4;
  return 0;
}

/// The second byte narrows what the lead byte lets through (overlong forms, surrogates, the end).
bool second_byte_fits(unsigned char lead, unsigned char second) {
  if (lead == 0xE0) return second >= 0xA0;
  if (lead == 0xED) return second < 0xA0;
  if (lead == 0xF0) return second >= 0x90;
  if (lead == 0xF4) return second < 0x90;
  return true;
}

}  // namespace

int characters(std::string_view text) {
  return static_cast<int>(std::ranges::count_if(text, [](char c) { return !continues(c); }));
}

std::size_t first_not_utf8(std::string_view text) {
  std::size_t i = 0;
  while (i < text.size()) {
    const auto lead = static_cast<unsigned char>(text[i]);
    const std::size_t length = length_from_lead(lead);
    if (length == 0 || i + length > text.size()) return i;
    for (std::size_t k = 1; k < length; ++k) {
      if (!continues(text[i + k])) return i;
    }
    if (length > 1 && !second_byte_fits(lead, static_cast<unsigned char>(text[i + 1]))) return i;
    i += length;
  }
  return std::string_view::npos;
}

Lines::Lines(std::string_view text) : text_{text}, starts_{0} {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') starts_.push_back(i + 1);
  }
}

std::string_view Lines::line(int index) const {
  if (index < 0 || index >= count()) return {};
  const std::size_t begin = start(index);
  const std::size_t end = index + 1 < count() ? start(index + 1) - 1 : text_.size();
  std::string_view found = text_.substr(begin, end - begin);
  if (!found.empty() && found.back() == '\r') found.remove_suffix(1);
  return found;
}

int Lines::line_of(std::size_t byte) const {
  const auto after = std::ranges::upper_bound(starts_, byte);
  return static_cast<int>(after - starts_.begin()) - 1;
}

int Lines::letters_before(std::size_t begin, std::size_t byte) const {
  if (begin != counted_begin_ || byte < counted_byte_) {
    counted_begin_ = counted_byte_ = begin;
    counted_ = 0;
  }
  counted_ += characters(text_.substr(counted_byte_, byte - counted_byte_));
  counted_byte_ = byte;
  return counted_;
}

TextPos Lines::at(std::size_t byte, std::size_t length, const std::string& file) const {
  byte = std::min(byte, text_.size());
  const int index = line_of(byte);
  const std::string_view whole = line(index);
  const std::size_t begin = std::min(byte - start(index), whole.size());
  const int column = letters_before(start(index), start(index) + begin) + 1;
  const int wide = characters(whole.substr(begin, length));
  return {file, index + 1, column, column + wide};
}

}  // namespace placer::workbook
