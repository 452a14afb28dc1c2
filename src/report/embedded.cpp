#include "report/embedded.h"

#include <stdexcept>

namespace placer::report {

std::string_view embedded(std::string_view name) {
  for (const auto& [known, bytes] : embedded_files()) {
    if (known == name) return bytes;
  }
  throw std::out_of_range{"no embedded file " + std::string{name}};
}

}  // namespace placer::report
