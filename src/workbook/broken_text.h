/// @file broken_text.h
/// What is wrong with a text before it can be a tree at all. Internal to workbook/.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "placer/base/error.h"

namespace placer::workbook {

/// At most 40 characters of a text, then "...".
std::string shortened(std::string_view text);

/// Bytes of the word that begins at `byte`: to the next blank, bracket or comma; at least 1.
std::size_t word_length(std::string_view text, std::size_t byte);

/// Bytes of the quoted text that begins at `byte`, closing quote included.
std::size_t quoted_length(std::string_view text, std::size_t byte);

/// The first character that no one types: below a blank (but ends of lines and tabs), or DEL.
std::optional<Finding> unseen_character(std::string_view text, const std::string& file);

/// Not UTF-8, characters that cannot be seen, tabs that indent. Empty when all is well.
std::vector<Finding> broken_characters(std::string_view text, const std::string& file);

/// The reader's complaint in plain words, at the place where a person should look.
/// @param complaint as the YAML reader words it.
Finding explain_break(std::string_view complaint, std::size_t byte, std::string_view text,
                      const std::string& file);

}  // namespace placer::workbook
