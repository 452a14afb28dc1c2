#include "report/lists.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/standing.h"
#include "report/words.h"

namespace placer::report {
namespace {

bool alike(const PlacedPiece& a, const PlacedPiece& b) {
  return a.piece == b.piece && a.stacked == b.stacked && a.stack == b.stack;
}

std::string how_words(const Stacking& stacking, std::size_t count) {
  switch (stacking.how) {
    case Stacking::How::nested:
      return "each in the one below";
    case Stacking::How::rim_to_rim:
      return count == 2 ? "rim to rim" : "rim to rim and foot to foot";
    case Stacking::How::flat:
      return "lying on one another";
    case Stacking::How::on_edge:
      return "side by side on edge";
    case Stacking::How::none:
      break;
  }
  return "";
}

std::string detail_of(const Subject& subject, const KilnLoad& load, const PlacedPiece& piece) {
  std::string words = length_text(piece.height, subject.inches) + " high";
  if (glazed(subject, load)) words = glaze_name(subject, piece) + ", " + words;
  const std::string build = build_words(subject, piece);
  if (!build.empty()) words += ", " + build;
  if (needs_cookie(subject.batch, load, piece)) words += ", on a cookie";
  return words;
}

}  // namespace

std::string build_words(const Subject& subject, const PlacedPiece& piece) {
  const std::vector<int> kinds = kinds_of(piece);
  if (kinds.size() < 2) return "";
  const bool mixed =
      std::any_of(kinds.begin(), kinds.end(), [&](int kind) { return kind != piece.piece; });
  const auto kind_at = [&](int kind) -> const PieceKind& {
    return subject.batch.pieces.at(static_cast<std::size_t>(kind));
  };
  if (!mixed) return how_words(kind_at(piece.piece).stacking, kinds.size());
  if (kinds.size() == 2) return kind_at(kinds[1]).wishes.inside ? "lid on" : "one on the other";
  std::vector<std::string> runs;
  for (std::size_t i = 0; i < kinds.size();) {
    std::size_t next = i;
    while (next < kinds.size() && kinds[next] == kinds[i]) ++next;
    const PieceKind& kind = kind_at(kinds[i]);
    const std::string how = how_words(kind.stacking, next - i);
    runs.push_back(
        fmt::format("{} {}{}", next - i, kind.name, next - i > 1 && !how.empty() ? " " + how : ""));
    i = next;
  }
  return fmt::format("from the bottom: {}", fmt::join(runs, ", then "));
}

std::vector<LeftOutGroup> by_reason(const std::vector<LeftOut>& left_out, std::size_t most) {
  std::vector<LeftOutGroup> groups;
  for (const LeftOut& one : left_out) {
    const bool same = !groups.empty() && groups.back().reason() == one.reason &&
                      groups.back().pieces.front()->load == one.load &&
                      groups.back().pieces.size() < most;
    if (!same) groups.emplace_back();
    groups.back().pieces.push_back(&one);
  }
  return groups;
}

bool glazed(const Subject& subject, const KilnLoad& load) {
  return subject.batch.loads.at(static_cast<std::size_t>(load.load)).kind == FiringKind::glaze;
}

std::string head_words(const Subject& subject, const ListLine& line) {
  const PlacedPiece& one = *line.pieces.front();
  const int count = static_cast<int>(line.pieces.size());
  const std::vector<int> kinds = kinds_of(one);
  const bool alike = std::count(kinds.begin(), kinds.end(), kinds.front()) ==
                     static_cast<std::ptrdiff_t>(kinds.size());
  if (kinds.size() < 2 || (!alike && kinds.size() == 2)) {
    return fmt::format("{} {}", count, line.name);
  }
  if (!alike) return fmt::format("{} of {}", count_text(count, "mixed stack"), kinds.size());
  return fmt::format("{} of {} {}", count_text(count, "stack"), kinds.size(),
                     subject.batch.pieces.at(static_cast<std::size_t>(kinds.front())).name);
}

std::vector<ListLine> list_lines(const Subject& subject, const KilnLoad& load, const Level& level) {
  std::vector<const PlacedPiece*> pieces;
  for (const PlacedPiece& piece : level.pieces) pieces.push_back(&piece);
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const auto* a, const auto* b) { return a->number < b->number; });
  std::vector<ListLine> lines;
  for (const PlacedPiece* piece : pieces) {
    const auto same = std::find_if(lines.begin(), lines.end(), [&](const ListLine& line) {
      return alike(*line.pieces.front(), *piece);
    });
    if (same != lines.end()) {
      same->pieces.push_back(piece);
    } else {
      lines.push_back({{piece},
                       piece_name(subject, *piece),
                       detail_of(subject, load, *piece),
                       needs_cookie(subject.batch, load, *piece)});
    }
  }
  return lines;
}

}  // namespace placer::report
