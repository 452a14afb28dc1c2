// Any bytes as a studio file: an answer with places, never a crash, and mending that mends.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "fuzz/library.h"
#include "placer/workbook/tidy.h"

using namespace placer;
using namespace placer::workbook;

namespace {

/// 2026-11-25 12:00 UTC.
constexpr long long kNow = 1795608000;

void must(bool holds) {
  if (!holds) std::abort();
}

void read_once(const std::string& text) {
  const StudioResult result = read_studio(text, "studio.yaml", fuzz::library(), kNow);
  must(result.studio.has_value() != has_mistakes(result.findings));
  for (const Finding& finding : result.findings) {
    must(finding.where.line >= 1 && finding.where.column >= 1);
    must(!finding.message.empty() && !show(finding, text, false).empty());
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(bytes), size);
  read_once(text);
  const Tidied tidied = tidy(text, "studio.yaml");
  if (!tidied.changes.empty()) {
    must(tidy(tidied.text, "studio.yaml").changes.empty());
    read_once(tidied.text);
  }
  return 0;
}
