#include "log_text.h"

#include <algorithm>
#include <vector>

#include "log_columns.h"

namespace placer::firing {
namespace {

void append_utf8(std::string& out, unsigned letter) {
  const auto byte = [&](unsigned value) { out += static_cast<char>(value); };
  if (letter < 0x80) {
    byte(letter);
  } else if (letter < 0x800) {
    byte(0xC0U | letter >> 6U);
    byte(0x80U | (letter & 0x3FU));
  } else {
    byte(0xE0U | letter >> 12U);
    byte(0x80U | (letter >> 6U & 0x3FU));
    byte(0x80U | (letter & 0x3FU));
  }
}

/// Letters beyond the first 65,536 come as two halves; a log has none, so each half becomes a dot.
std::string from_two_bytes(std::string_view bytes, bool low_first) {
  std::string out;
  out.reserve(bytes.size() / 2);
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    const auto a = static_cast<unsigned char>(bytes[i]);
    const auto b = static_cast<unsigned char>(bytes[i + 1]);
    const unsigned letter = low_first ? b * 256U + a : a * 256U + b;
    append_utf8(out, letter >= 0xD800 && letter < 0xE000 ? '.' : letter);
  }
  return out;
}

bool looks_like_text(std::string_view text) {
  const std::string_view sample = text.substr(0, 4096);
  const auto odd = std::count_if(sample.begin(), sample.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 && c != '\n' && c != '\r' && c != '\t' && c != '\f' && c != 0x1A;
  });
  constexpr std::size_t kForgiven = 10;  // a few slip into any short file
  return static_cast<std::size_t>(odd) * 50 <= sample.size() + 50 * kForgiven;
}

/// Bytes of the UTF-8 letter that begins at `at`, 0 when none does.
std::size_t letter_at(std::string_view raw, std::size_t at) {
  const auto first = static_cast<unsigned char>(raw[at]);
  const std::size_t size = first < 0x80                     ? 1
                           : first >= 0xC2 && first <= 0xDF ? 2
                           : first >= 0xE0 && first <= 0xEF ? 3
                           : first >= 0xF0 && first <= 0xF4 ? 4
                                                            : 0;
  if (size == 0 || at + size > raw.size()) {
    return 0;
  }
  for (std::size_t i = 1; i < size; ++i) {
    if ((static_cast<unsigned char>(raw[at + i]) & 0xC0U) != 0x80U) {
      return 0;
    }
  }
  // C1 controls move a terminal's cursor as the old ones do.
  const bool control = first < 0x20 || first == 0x7F ||
                       (first == 0xC2 && static_cast<unsigned char>(raw[at + 1]) < 0xA0);
  return control ? 0 : size;
}

}  // namespace

PlainText::PlainText(std::string_view bytes) : view_{bytes} {
  constexpr std::string_view kUtf8 = "\xEF\xBB\xBF";
  const bool low_first = bytes.starts_with("\xFF\xFE");
  if (low_first || bytes.starts_with("\xFE\xFF")) {
    changed_ = from_two_bytes(bytes.substr(2), low_first);
    view_ = changed_;
  } else if (bytes.starts_with(kUtf8)) {
    view_ = bytes.substr(kUtf8.size());
  }
  const std::string_view beginning = view_.substr(0, 4096);
  if (beginning.find('\n') == std::string_view::npos &&
      beginning.find('\r') != std::string_view::npos) {  // old line ends
    changed_ = std::string{view_};
    std::replace(changed_.begin(), changed_.end(), '\r', '\n');
    view_ = changed_;
  }
  text_ = looks_like_text(view_);
}

std::string printable(std::string_view raw, std::size_t most) {
  std::string out;
  std::size_t letters = 0;
  for (std::size_t at = 0; at < raw.size(); ++letters) {
    if (letters == most) {
      return out + "...";
    }
    const std::size_t size = letter_at(raw, at);
    if (size == 0) {
      out += raw[at] == '\t' ? " " : "·";
      ++at;
    } else {
      out += raw.substr(at, size);
      at += size;
    }
  }
  return out;
}

bool is_comment(std::string_view line) {
  const std::string_view text = bare(line);
  return text.starts_with('#') || text.starts_with("//");
}

std::string turned_round(std::string_view text, std::size_t keep) {
  std::vector<std::string_view> lines;
  std::size_t at = 0;
  while (const auto line = next_line(text, at)) {
    lines.push_back(*line);
  }
  if (keep < lines.size()) {
    std::reverse(lines.begin() + static_cast<std::ptrdiff_t>(keep), lines.end());
  }
  std::string out;
  out.reserve(text.size());
  for (const std::string_view line : lines) {
    out += line;
    out += '\n';
  }
  return out;
}

}  // namespace placer::firing
