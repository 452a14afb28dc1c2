/// @file cursor.h
/// Takes numbers and unit words off the front of a text. Internal to workbook/.
#pragma once

#include <optional>
#include <string_view>

namespace placer::workbook {

class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_{text} {}

  bool done() const { return rest_.empty(); }
  std::string_view rest() const { return rest_; }
  void skip_blanks();
  bool take(std::string_view what);

  /// 12, 12.5, .5, 3/4, 17 3/4, 17-3/4, 17½, ½.
  std::optional<double> number();

  /// Everything up to the next digit or blank that a digit follows.
  std::string_view unit();

 private:
  std::optional<double> vulgar();
  std::optional<double> decimal();
  /// "/4"; the number below the line is not zero.
  std::optional<double> slash();

  std::string_view rest_;
  bool whole_ = false;  ///< the last decimal() was a whole number
};

}  // namespace placer::workbook
