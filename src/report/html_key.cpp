#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "report/html.h"
#include "report/keep_outs.h"
#include "report/standing.h"
#include "report/tight_gaps.h"

namespace placer::report {
namespace {

/// A small picture of a sign, 30 units high.
std::string picture(const std::string& marks) {
  return "<svg class=\"swatch\" viewBox=\"0 0 48 30\" aria-hidden=\"true\">" + marks + "</svg>";
}

std::string entry(const std::string& marks, const std::string& words) {
  return "<li>" + picture(marks) + "<span>" + escaped(words) + "</span></li>\n";
}

const char* sign_marks(Sign sign) {
  switch (sign) {
    case Sign::cones:
      return "<path class=\"sign\" stroke-width=\"2.5\" d=\"M24 5L34 24L14 24Z\"/>";
    case Sign::sensor:
      return "<path class=\"sign\" stroke-width=\"2.5\" d=\"M14 15A10 10 0 0 0 34 15A10 10 0 0 0 "
             "14 15ZM17 8L31 22M17 22L31 8\"/>";
    case Sign::spy_hole:
      return "<path class=\"sign\" stroke-width=\"2.5\" d=\"M14 15L33 5L33 25Z\"/>";
    case Sign::other:
      break;
  }
  return "<path class=\"sign\" stroke-width=\"2.5\" d=\"M14 5H34V25H14ZM14 25L34 5\"/>";
}

constexpr const char* kDrop =
    "<path class=\"drop\" stroke-width=\"0\" d=\"M24 2L17.5 15A8 8 0 1 0 30.5 15Z\"/>";
constexpr const char* kPack =
    "<path class=\"pack\" stroke-width=\"2\" d=\"M3 5H45V25H3Z\"/><path class=\"cone\" d=\"M12 "
    "8L17 22L7 22ZM24 8L29 22L19 22ZM36 8L41 22L31 22Z\"/>";
constexpr const char* kPinch =
    "<path class=\"pinch\" stroke-width=\"0\" d=\"M21 15L7 8V22ZM27 15L41 8V22Z\"/>";
constexpr const char* kRunnyPinch =
    "<path class=\"pinch runny\" stroke-width=\"2\" d=\"M21 15L7 8V22ZM27 15L41 8V22Z\"/>";
constexpr const char* kRing = "<path class=\"keep-out\" stroke-width=\"2.5\" d=\"M9 4H39V26H9Z\"/>";
constexpr const char* kPost = "<path class=\"post\" d=\"M14 5H34V25H14Z\"/>";

std::string keep_out_entries(const Subject& subject, const ShelfPlace& place) {
  std::string text;
  std::vector<std::string> told;
  for (const KeepOut* keep_out : keep_outs_here(subject.batch, place.level)) {
    const bool cones = std::any_of(place.cones.begin(), place.cones.end(),
                                   [&](const ConePlace& one) { return one.hole == keep_out; });
    const std::string words =
        keep_out_words(subject.batch, place.level, *keep_out, cones, subject.inches);
    if (std::find(told.begin(), told.end(), words) != told.end()) continue;
    told.push_back(words);
    text +=
        entry(stands_here(place.level, *keep_out) ? sign_marks(sign_of(*keep_out)) : kRing, words);
  }
  return text;
}

}  // namespace

std::string key_list(const Subject& subject, const ShelfPlace& place) {
  std::string text;
  const auto& pieces = place.level.pieces;
  const bool runs = std::any_of(pieces.begin(), pieces.end(), [&](const PlacedPiece& piece) {
    return needs_cookie(subject.batch, place.load, piece);
  });
  if (runs) text += entry(kDrop, "runny glaze: a cookie under it");
  if (!place.level.posts.empty()) text += entry(kPost, "post");
  std::set<std::string> told;
  for (const ConePlace& cones : place.cones) {
    if (told.insert(cone_words(cones)).second) text += entry(kPack, cone_words(cones));
  }
  text += keep_out_entries(subject, place);
  const TightGaps tight = tight_gaps(subject.batch, place.load, place.level);
  for (const auto& [words, runny] : tight_words(tight, subject.inches)) {
    text += tight.everywhere ? "<li>" + escaped(words) + "</li>\n"
                             : entry(runny ? kRunnyPinch : kPinch, words);
  }
  return text.empty() ? "" : "<ul class=\"key\">\n" + text + "</ul>\n";
}

}  // namespace placer::report
