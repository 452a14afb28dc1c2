#include <fmt/format.h>

#include <cmath>

#include "report/html.h"

namespace placer::report {
namespace {

/// Length of the letter that begins there, 0 when the bytes are no letter (RFC 3629).
std::size_t letter_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
  };
  const auto next = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
    return byte(i) >= low && byte(i) <= high;
  };
  const unsigned lead = byte(at);
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return next(at + 1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const unsigned low = lead == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = lead == 0xED ? 0x9F : 0xBF;
    return next(at + 1, low, high) && next(at + 2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned low = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned high = lead == 0xF4 ? 0x8F : 0xBF;
    return next(at + 1, low, high) && next(at + 2) && next(at + 3) ? 4 : 0;
  }
  return 0;
}

std::string one_letter(char c) {
  switch (c) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    case '\'':
      return "&#39;";
    default:
      break;
  }
  const auto byte = static_cast<unsigned char>(c);
  if ((byte < 0x20 && c != '\n' && c != '\t') || byte == 0x7F) return "";
  return {c};
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string safe;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = letter_length(text, at);
    const std::string_view letter = text.substr(at, length);
    if (length == 0) {
      safe += "\xEF\xBF\xBD";
    } else if (length == 1) {
      safe += one_letter(text[at]);
    } else if (letter != "\xEF\xBF\xBE" && letter != "\xEF\xBF\xBF") {  // no XML character
      safe += letter;
    }
    at += std::max<std::size_t>(length, 1);
  }
  return safe;
}

std::string bdi(std::string_view name) { return "<bdi>" + escaped(name) + "</bdi>"; }

std::string svg_number(double value) {
  const long long tenths = std::llround(value * 10);
  if (tenths % 10 == 0) return std::to_string(tenths / 10);
  return fmt::format("{}{}.{}", tenths < 0 ? "-" : "", std::abs(tenths) / 10,
                     std::abs(tenths) % 10);
}

std::string shelf_id(const ShelfPlace& place) {
  return fmt::format("f{}-c{}-s{}", place.firing + 1, place.level.column + 1, place.level.level);
}

std::string tick_line(const std::string& id, const std::string& words, const std::string& detail) {
  const std::string more = detail.empty() ? "" : fmt::format(" <small>{}</small>", escaped(detail));
  return fmt::format(
      "<li><button type=\"button\" class=\"tick line\" id=\"{}\" aria-pressed=\"false\">"
      "<span class=\"box\" aria-hidden=\"true\"></span><span>{}{}</span></button></li>\n",
      id, escaped(words), more);
}

}  // namespace placer::report
