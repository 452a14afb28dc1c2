#include "report/lists.h"

#include <algorithm>

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
  const std::vector<int> kinds = kinds_of(piece);
  const bool mixed =
      std::any_of(kinds.begin(), kinds.end(), [&](int kind) { return kind != piece.piece; });
  if (kinds.size() < 2 || mixed) return words;
  const auto& kind = subject.batch.pieces.at(static_cast<std::size_t>(piece.piece));
  const std::string how = how_words(kind.stacking, kinds.size());
  return how.empty() ? words : words + ", " + how;
}

}  // namespace

bool glazed(const Subject& subject, const KilnLoad& load) {
  return subject.batch.loads.at(static_cast<std::size_t>(load.load)).kind == FiringKind::glaze;
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
      lines.push_back({{piece}, piece_name(subject, *piece), detail_of(subject, load, *piece)});
    }
  }
  return lines;
}

}  // namespace placer::report
