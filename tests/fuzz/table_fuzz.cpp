// Any bytes as a table of pieces, and any bytes as the log of a firing.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "fuzz/library.h"
#include "placer/firing/log.h"
#include "placer/workbook/pieces_csv.h"

using namespace placer;

namespace {

void must(bool holds) {
  if (!holds) std::abort();
}

void read_pieces(const std::string& text) {
  const workbook::CsvPieces pieces = workbook::read_pieces_csv(text, "pieces.csv");
  must(pieces.yaml.empty() == (has_mistakes(pieces.findings) || pieces.rows == 0));
  for (const Finding& finding : pieces.findings) {
    must(finding.where.line >= 1 && finding.where.column >= 1);
    must(!workbook::show(finding, text, false).empty());
  }
}

void read_log(const std::string& text) {
  const firing::FiringLog log = firing::read_log(text, "log.csv");
  double before = -INFINITY;
  for (const firing::LogRow& row : log.rows) {
    must(std::isfinite(row.hours) && std::isfinite(row.celsius) && row.hours >= before);
    before = row.hours;
  }
  must(log.rows.size() >= 2 || has_mistakes(log.findings));
  if (has_mistakes(log.findings)) return;
  firing::LogQuestion question;
  question.cone = "6";
  firing::judge_log(log, fuzz::library().cones, question);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(bytes), size);
  read_pieces(text);
  read_log(text);
  return 0;
}
