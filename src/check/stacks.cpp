// Stacks: only as their kind allows, only in a bisque; a lid is on its pot.
#include <fmt/format.h>

#include <cmath>

#include "check/rules.h"

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

std::string run_trouble(const PieceKind& piece, FiringKind kind, int count) {
  if (count == 1) return "";
  if (kind == FiringKind::glaze) return "nothing may touch in a glaze firing";
  if (piece.stacking.how == Stacking::How::none) return "they may not be stacked";
  if (count <= piece.stacking.most) return "";
  return fmt::format("at most {} may stand in one stack, not {}", piece.stacking.most, count);
}

}  // namespace

std::string stack_trouble(const Batch& batch, const PlacedPiece& piece, FiringKind kind) {
  const std::vector<int> kinds = kinds_of(piece);
  if (kinds.empty() || kinds.front() != piece.piece || index(piece.stacked) != kinds.size()) {
    return fmt::format("it is said to be {} pieces, but {} are named", piece.stacked, kinds.size());
  }
  for (std::size_t i = 0; i < kinds.size();) {
    std::size_t next = i;
    while (next < kinds.size() && kinds[next] == kinds[i]) ++next;
    const PieceKind& here = batch.pieces[index(kinds[i])];
    std::string trouble = run_trouble(here, kind, static_cast<int>(next - i));
    if (!trouble.empty()) return trouble;
    if (i > 0 && here.wishes.inside != batch.pieces[index(kinds[i - 1])].name) {
      return fmt::format("'{}' does not belong on '{}'", here.name,
                         batch.pieces[index(kinds[i - 1])].name);
    }
    if (i > 0 && next - i > 1) return "more than one lid on a pot";
    i = next;
  }
  return "";
}

void check_stacks(const View& view, Findings& findings) {
  for (const StandingPiece& piece : view.pieces) {
    const std::string trouble = stack_trouble(view.batch, *piece.placed, view.kind);
    if (!trouble.empty()) {
      add(findings, "stack", fmt::format("{}: {}.", view.words(piece), trouble));
      continue;
    }
    const double height = piece.placed->height.mm();
    if (std::abs(height - piece.size.height.mm()) > kTolerance) {
      const TwoLengths lengths = two_lengths(height, piece.size.height.mm());
      add(findings, "size",
          fmt::format("The plan says that {} is {} high, but it is {}.", view.words(piece),
                      lengths.is, lengths.asked));
    }
    if (std::abs(piece.placed->mass.kg() - piece.size.mass.kg()) > 1e-6) {
      add(findings, "size",
          fmt::format("The plan says that {} weighs {} kg, but it is {} kg.", view.words(piece),
                      piece.placed->mass.kg(), piece.size.mass.kg()));
    }
  }
}

}  // namespace placer::check
