/// @file tidy.h
/// Mending a studio file where only one thing can be meant: text edits, remarks and layout kept.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "placer/base/error.h"

namespace placer::workbook {

/// One change: `old_text` at `where` becomes `new_text`. Bytes count from the start of the text.
struct Edit {
  std::size_t begin = 0, end = 0;
  std::string old_text, new_text;
  TextPos where;
  std::string reason;  ///< "no such word for a piece", ...
};

/// Words misspelt with a single near word, words of others for the same thing ("diameter"), a
/// missing first line. Never a number, never a name. Empty when there is nothing to mend or the text
/// cannot be read at all.
std::vector<Edit> edits_for(std::string_view text, const std::string& file);

/// The text with the edits made.
std::string with_edits(std::string_view text, const std::vector<Edit>& edits);

struct Tidied {
  std::string text;
  std::vector<std::string> changes;  ///< one line each: "studio.yaml:8: hieght -> height"
};
Tidied tidy(std::string_view text, const std::string& file);

}  // namespace placer::workbook
