#include "report/keep_outs.h"

#include <algorithm>

namespace placer::report {
namespace {

std::string small_letters(std::string words) {
  for (char& c : words) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return words;
}

bool overlap(const Box& a, const Box& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

}  // namespace

Sign sign_of(const KeepOut& keep_out) {
  const std::string what = small_letters(keep_out.what);
  const auto says = [&](const char* word) { return what.find(word) != std::string::npos; };
  if (says("spy") || says("peep")) return Sign::spy_hole;
  if (says("cone")) return Sign::cones;
  if (says("sensor") || says("couple") || says("probe")) return Sign::sensor;
  return Sign::other;
}

bool reaches(const KeepOut& keep_out, Length from, Length to) {
  const bool whole = keep_out.to <= keep_out.from;
  return whole || (keep_out.from < to && keep_out.to > from);
}

std::vector<const KeepOut*> keep_outs_here(const Batch& batch, const Level& level) {
  Box shelf = bounding_box(ground(batch, level));
  constexpr double kNear = 40;
  shelf.low = shelf.low - Point{kNear, kNear};
  shelf.high = shelf.high + Point{kNear, kNear};
  std::vector<const KeepOut*> here;
  for (const KeepOut& keep_out : batch.kiln.keep_outs) {
    if (reaches(keep_out, level.shelf_top, level.shelf_top + level.clear_height) &&
        overlap(bounding_box(keep_out.area), shelf)) {
      here.push_back(&keep_out);
    }
  }
  return here;
}

bool lies_over(const Batch& batch, const Level& level, const KeepOut& keep_out) {
  return gap(keep_out.area, ground(batch, level)) < 0;
}

}  // namespace placer::report
