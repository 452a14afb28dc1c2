#include "placer/base/error.h"

#include <algorithm>
#include <utility>

namespace placer {
namespace {

std::string first_line(const std::vector<Finding>& findings) {
  if (findings.empty()) return "unusable input";
  return to_string(findings.front().where) + ": " + findings.front().message;
}

}  // namespace

std::string to_string(const TextPos& pos) {
  std::string text = pos.file;
  if (pos.line > 0) text += ":" + std::to_string(pos.line);
  if (pos.line > 0 && pos.column > 0) text += ":" + std::to_string(pos.column);
  return text;
}

bool has_mistakes(const std::vector<Finding>& findings) {
  return std::ranges::any_of(findings,
                             [](const Finding& f) { return f.severity == Severity::mistake; });
}

InputError::InputError(std::vector<Finding> findings)
    : std::runtime_error{first_line(findings)}, findings_{std::move(findings)} {}

InputError::InputError(const TextPos& where, std::string_view message)
    : InputError{std::vector{
          Finding{Severity::mistake, "unusable", std::string{message}, where, std::nullopt}}} {}

}  // namespace placer
