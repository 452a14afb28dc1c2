#include "cli/telling.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <functional>
#include <iostream>
#include <map>
#include <system_error>

#include "cli/files.h"
#include "placer/workbook/studio.h"

namespace placer::cli {
namespace {

constexpr int kMostTold = 100;

using Quote = std::function<std::string_view(const Finding&)>;

void tell_each(const std::vector<Finding>& findings, const Quote& quote, const Request& request) {
  const bool colour = wants_colour(request);
  int told = 0;
  int untold = 0;
  for (const Finding& finding : findings) {
    if (request.quiet && finding.severity == Severity::look) continue;
    if (++told > kMostTold) {
      ++untold;
    } else {
      std::cerr << workbook::show(finding, quote(finding), colour);
    }
  }
  if (untold > 0) std::cerr << fmt::format("... and {} more like these\n", untold);
}

std::string text_if_readable(const std::string& file) {
  try {
    return read_whole(file);
  } catch (const std::system_error&) {
    return {};  // told without the line then
  }
}

}  // namespace

bool wants_colour(const Request& request) {
  if (request.colour == "always") return true;
  const char* no_color = std::getenv("NO_COLOR");
  if (request.colour == "never" || (no_color != nullptr && *no_color != '\0')) return false;
  const char* terminal = std::getenv("TERM");
  const bool dumb = terminal != nullptr && std::string_view{terminal} == "dumb";
  return ::isatty(STDERR_FILENO) == 1 && !dumb;
}

void tell(const std::vector<Finding>& findings, std::string_view text, const Request& request) {
  tell_each(
      findings, [text](const Finding&) { return text; }, request);
}

void tell(const std::vector<Finding>& findings, const std::string& file, std::string_view text,
          const Request& request) {
  std::map<std::string, std::string> others;
  const Quote quote = [&](const Finding& finding) -> std::string_view {
    if (finding.where.line <= 0) return {};
    if (finding.where.file == file) return text;
    const auto [found, is_new] = others.try_emplace(finding.where.file);
    if (is_new) found->second = text_if_readable(finding.where.file);
    return found->second;
  };
  tell_each(findings, quote, request);
}

}  // namespace placer::cli
