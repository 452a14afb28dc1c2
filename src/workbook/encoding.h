/// @file encoding.h
/// Whether a file is text at all, stored as UTF-8. Internal to workbook/.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "placer/base/error.h"

namespace placer::workbook {

/// How a potter calls the file and saves it rightly.
struct SavedAs {
  std::string_view what;  ///< "file", "table"
  std::string_view cure;  ///< "save the file as \"UTF-8\" in the editor"
};
constexpr SavedAs kStudioFile{"file", "save the file as \"UTF-8\" in the editor"};
constexpr SavedAs kTable{"table", "save the table as \"CSV UTF-8\""};

/// The mistake in how the bytes are stored; nothing when they are UTF-8.
std::optional<Finding> wrong_encoding(std::string_view bytes, const std::string& file,
                                      const SavedAs& saved);

}  // namespace placer::workbook
