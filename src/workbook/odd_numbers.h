/// @file odd_numbers.h
/// Numbers written in ways that are not taken, told apart so that each is answered by its own
/// sentence. Internal to workbook/.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace placer::workbook {

struct Oddity {
  std::string complaint;
  std::optional<std::string> suggestion;  ///< the whole text as it was probably meant
};

/// A decimal comma, a power of ten, a range, figures or blanks of another kind.
std::optional<Oddity> oddity_in(std::string_view text);

}  // namespace placer::workbook
