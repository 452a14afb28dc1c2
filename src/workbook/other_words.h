/// @file other_words.h
/// What people call things that a studio file and a table of pieces call otherwise. Internal to
/// workbook/.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace placer::workbook {

/// The file's word for what somebody called `other` at that place; nothing when none is known.
std::optional<std::string> own_word(std::string_view place, std::string_view other);

}  // namespace placer::workbook
