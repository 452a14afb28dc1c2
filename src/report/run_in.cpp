#include "report/run_in.h"

#include <algorithm>

namespace placer::report {
namespace {

double step_of(const RunInLine& line) { return line.style.step * line.style.size; }

}  // namespace

std::vector<RunInLine> run_in(const Desk& desk, const std::string& lead, const std::string& words,
                              double most, const Style& bold, const Style& plain) {
  std::vector<RunInLine> lines;
  std::string rest = words;
  if (!lead.empty()) {
    const auto leads = desk.letters.wrapped(lead, bold.size, true, most);
    for (const std::string& line : leads) lines.push_back({0, line, bold});
    const double indent = desk.letters.width(leads.back(), bold.size, true) + 2.5;
    // A bit of a word behind a long lead is not worth it.
    if (!rest.empty() && indent < 0.7 * most) {
      const auto behind = desk.letters.wrapped(rest, plain.size, false, most - indent);
      lines.push_back({indent, behind.front(), plain});
      rest.erase(0, std::min(rest.size(), behind.front().size()));
    }
  }
  if (rest.find_first_not_of(' ') == std::string::npos) return lines;
  for (const std::string& line : desk.letters.wrapped(rest, plain.size, false, most)) {
    lines.push_back({0, line, plain});
  }
  return lines;
}

double lines_high(const std::vector<RunInLine>& lines) {
  double sum = 0;
  for (const RunInLine& line : lines) sum += line.indent > 0 ? 0 : step_of(line);
  return sum;
}

double write_run_in(Page& page, const Desk& desk, Point top_left,
                    const std::vector<RunInLine>& lines) {
  double y = top_left.y;
  double base = y;
  for (const RunInLine& line : lines) {
    if (line.indent <= 0) {
      base = y + 0.9 * line.style.size;
      y += step_of(line);
    }
    write(page, desk, {top_left.x + line.indent, base}, line.words, line.style);
  }
  return y;
}

}  // namespace placer::report
