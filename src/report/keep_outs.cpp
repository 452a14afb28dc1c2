#include "report/keep_outs.h"

#include <algorithm>

#include "placer/model/cone_place.h"
#include "report/words.h"

namespace placer::report {
namespace {

bool is_sensor(std::string what) {
  for (char& c : what) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  const auto says = [&](const char* word) { return what.find(word) != std::string::npos; };
  return says("sensor") || says("couple") || says("probe");
}

bool overlap(const Box& a, const Box& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

}  // namespace

Sign sign_of(const KeepOut& keep_out) {
  if (is_spy_hole(keep_out)) return Sign::spy_hole;
  if (is_for_cones(keep_out)) return Sign::cones;
  return is_sensor(keep_out.what) ? Sign::sensor : Sign::other;
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

Length begins_over(const Level& level, const KeepOut& keep_out) {
  if (keep_out.to <= keep_out.from) return Length{};
  return std::max(keep_out.from - level.shelf_top, Length{});
}

bool stands_here(const Level& level, const KeepOut& keep_out) {
  constexpr double kLow = 40;  // mm: a place given a little too high is still on this shelf
  return sign_of(keep_out) != Sign::cones || begins_over(level, keep_out).mm() < kLow;
}

std::string keep_out_words(const Batch& batch, const Level& level, const KeepOut& keep_out,
                           bool cones, bool inches) {
  if (!lies_over(batch, level, keep_out)) return keep_out.what + ", beside the shelf";
  if (sign_of(keep_out) == Sign::cones && stands_here(level, keep_out)) {
    return keep_out.what + ": set it here";
  }
  std::string words = keep_out.what + ": keep clear";
  const Length over = begins_over(level, keep_out);
  if (over.mm() >= 1) words += " from " + length_text(over, inches) + " up";
  return cones ? words + " but for the cones" : words;
}

bool lies_over(const Batch& batch, const Level& level, const KeepOut& keep_out) {
  return gap(keep_out.area, ground(batch, level)) < 0;
}

}  // namespace placer::report
