/// @file explain.h
/// What each finding's code means, at more length: `placer why CODE`.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace placer::workbook {

/// Several plain sentences, or nothing for an unknown code.
std::optional<std::string> explain(std::string_view code);

/// Every code, in alphabetical order.
std::vector<std::string> explained_codes();

}  // namespace placer::workbook
