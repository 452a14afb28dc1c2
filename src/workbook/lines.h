/// @file lines.h
/// A text cut into lines, and places in it as an editor counts them. Internal to workbook/.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "placer/base/error.h"

namespace placer::workbook {

/// Characters (code points) of a UTF-8 text.
int characters(std::string_view text);

/// Index of the first byte that is not UTF-8, or npos. Overlong forms, surrogates and anything
/// beyond U+10FFFF count as wrong.
std::size_t first_not_utf8(std::string_view text);

/// The lines of a text without their ends; the text must outlive it. Lines count from 0 here.
class Lines {
 public:
  explicit Lines(std::string_view text);

  int count() const { return static_cast<int>(starts_.size()); }
  std::string_view line(int index) const;  ///< "" when there is no such line
  std::size_t start(int index) const { return starts_[static_cast<std::size_t>(index)]; }
  int line_of(std::size_t byte) const;

  /// The place of `length` bytes from a byte of the text on, cut at the end of its line.
  TextPos at(std::size_t byte, std::size_t length, const std::string& file) const;

 private:
  /// Letters before a byte of its line. Counts on from the last one asked for, as places are asked
  /// for from left to right and a line may be as long as the file.
  int letters_before(std::size_t begin, std::size_t byte) const;

  std::string_view text_;
  std::vector<std::size_t> starts_;
  mutable std::size_t counted_begin_ = 0, counted_byte_ = 0;
  mutable int counted_ = 0;
};

}  // namespace placer::workbook
