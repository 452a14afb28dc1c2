/// @file odd_samples.h
/// Studios whose names would break a page, a calendar or a spreadsheet that does not escape them;
/// and all samples that the text reports are tried on.
#pragma once

#include <string>
#include <vector>

#include "report/sheet_samples.h"

namespace placer::support {

/// Markup, quotes, formulas, line ends, right-to-left names and bytes that are no letters.
inline SheetSample odd_names_sample() {
  SheetSample sample = everyday_sample();
  sample.name = "odd-names";
  sample.studio = "</title><script>alert(1)</script> & \"Co\"";
  sample.batch.kiln.name = "Kiln <b>1</b>; a, b\\c";
  const std::vector<std::string> names{
      "=HYPERLINK(\"x\")", "Mug <img src=x> & 'handle'", "קנקן", "إبريق 🫖 كبير",
      "@cup, \"small\"",   "bud\r\nvase\x01 \xFF\xC0"};
  for (std::size_t i = 0; i < names.size(); ++i) sample.batch.pieces[i].name = names[i];
  sample.batch.glazes[0].name = "-clear]]>";
  sample.plan.left_out[0].reason = "It is > 400 mm & <too wide>.";
  sample.plan.name = "ELF-\"9\"<&>";
  return sample;
}

inline std::vector<SheetSample> text_samples() {
  std::vector<SheetSample> all = sheet_samples();
  all.push_back(odd_names_sample());
  return all;
}

}  // namespace placer::support
