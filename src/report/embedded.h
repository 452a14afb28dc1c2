/// @file embedded.h
/// Data files that the program carries inside itself (see embed.cmake).
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace placer::report {

/// Name (as in src/report/page and src/report/schemas) and bytes, by name.
const std::vector<std::pair<std::string, std::string_view>>& embedded_files();
/// @throws std::out_of_range if there is no such file.
std::string_view embedded(std::string_view name);

}  // namespace placer::report
