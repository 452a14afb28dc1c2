#include "workbook/json_text.h"

#include <fmt/format.h>

namespace placer::workbook {
namespace {

std::string joined(const std::vector<std::string>& parts, char open, char close) {
  std::string out{open};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) out += ',';
    out += parts[i];
  }
  return out + close;
}

/// Bytes of the JSON string that begins at `at`, quotes included.
std::size_t string_length(std::string_view json, std::size_t at) {
  std::size_t i = at + 1;
  while (i < json.size() && json[i] != '"') i += json[i] == '\\' ? 2U : 1U;
  return i + 1 - at;
}

}  // namespace

std::string json_string(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      out += fmt::format("\\u{:04x}", static_cast<int>(c));
    } else {
      out += c;
    }
  }
  return out + '"';
}

std::string json_object(const std::vector<std::pair<std::string, std::string>>& entries) {
  std::vector<std::string> parts;
  parts.reserve(entries.size());
  for (const auto& [key, value] : entries) parts.push_back(json_string(key) + ":" + value);
  return joined(parts, '{', '}');
}

std::string json_list(const std::vector<std::string>& values) { return joined(values, '[', ']'); }

std::string json_indented(std::string_view json) {
  std::string out;
  std::size_t depth = 0;
  const auto new_line = [&] { out += '\n' + std::string(2 * depth, ' '); };
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (c == '"') {
      const std::size_t length = string_length(json, i);
      out += json.substr(i, length);
      i += length - 1;
    } else if (c == '{' || c == '[') {
      out += c;
      ++depth;
      new_line();
    } else if (c == '}' || c == ']') {
      --depth;
      new_line();
      out += c;
    } else if (c == ',') {
      out += c;
      new_line();
    } else {
      out += c == ':' ? ": " : std::string(1, c);
    }
  }
  return out + '\n';
}

}  // namespace placer::workbook
