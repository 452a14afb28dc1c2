#include <fmt/format.h>

#include <stdexcept>

#include "placer/report/report.h"
#include "report/embedded.h"

namespace placer::report {
namespace {

constexpr std::string_view kEnding = ".schema.json";

}  // namespace

std::vector<std::string> answer_schemas() {
  std::vector<std::string> names;
  for (const auto& [name, bytes] : embedded_files()) {
    if (name.ends_with(kEnding)) names.push_back(name.substr(0, name.size() - kEnding.size()));
  }
  return names;
}

std::string answer_schema(const std::string& answer) {
  const std::vector<std::string> names = answer_schemas();
  for (const std::string& name : names) {
    if (name == answer) return std::string{embedded(name + std::string{kEnding})};
  }
  throw std::invalid_argument{
      fmt::format("no answer called \"{}\"; there are {}", answer, fmt::join(names, ", "))};
}

}  // namespace placer::report
