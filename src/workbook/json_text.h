/// @file json_text.h
/// Pieces of JSON put together as text. Internal to workbook/.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace placer::workbook {

/// "text" in JSON's quotes.
std::string json_string(std::string_view text);
/// {"key": value, ...} of values that are JSON already, in the order given.
std::string json_object(const std::vector<std::pair<std::string, std::string>>& entries);
/// [value, ...] likewise.
std::string json_list(const std::vector<std::string>& values);
/// The same JSON with a line for each entry, two blanks deeper for each level.
std::string json_indented(std::string_view json);

}  // namespace placer::workbook
