#include "workbook/encoding.h"

#include <fmt/format.h>

#include <algorithm>

#include "workbook/lines.h"

namespace placer::workbook {
namespace {

/// Two bytes a letter: a mark at the beginning, or every second byte of the first ones zero.
bool two_bytes_a_letter(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) return true;
  const std::string_view first = bytes.substr(0, 64);
  std::size_t even = 0;
  std::size_t odd = 0;
  for (std::size_t i = 0; i < first.size(); ++i) {
    if (first[i] == '\0') ++(i % 2 == 0 ? even : odd);
  }
  return std::max(even, odd) * 3 > first.size() && std::min(even, odd) == 0;
}

/// The letter that a byte stands for in ISO 8859-1, as UTF-8; "" for bytes that are none there.
std::string latin_letter(unsigned char byte) {
  if (byte < 0xC0 || byte == 0xD7 || byte == 0xF7) return "";
  return {static_cast<char>(0xC0 | (byte >> 6U)), static_cast<char>(0x80 | (byte & 0x3FU))};
}

}  // namespace

std::optional<Finding> wrong_encoding(std::string_view bytes, const std::string& file,
                                      const SavedAs& saved) {
  const auto told = [&](std::size_t byte, std::string message) {
    return Finding{Severity::mistake, "encoding", std::move(message),
                   Lines{bytes.substr(0, byte)}.at(byte, 1, file), std::nullopt};
  };
  if (two_bytes_a_letter(bytes)) {
    return told(0, fmt::format("this {} is stored with two bytes a letter (UTF-16): {}", saved.what,
                               saved.cure));
  }
  if (bytes.starts_with("PK\x03\x04") || bytes.starts_with("\xD0\xCF\x11\xE0")) {
    return told(0,
                "this is no text but a packed or spreadsheet file: open it where it was made, "
                "and save it as plain text");
  }
  const std::size_t bad = first_not_utf8(bytes);
  if (bad == std::string_view::npos) return std::nullopt;
  const std::string letter = latin_letter(static_cast<unsigned char>(bytes[bad]));
  return told(bad,
              fmt::format("this letter{} is stored in an old way: {}",
                          letter.empty() ? "" : fmt::format(" (\"{}\"?)", letter), saved.cure));
}

}  // namespace placer::workbook
