#include "placer/model/batch.h"

#include <stdexcept>

namespace placer {
namespace {

const Clay& clay_of(const Batch& batch, const PieceKind& piece) {
  return batch.clays.at(static_cast<std::size_t>(piece.clay));
}

bool is_runny(const Batch& batch, const PieceKind& piece) {
  return piece.glaze && batch.glazes.at(static_cast<std::size_t>(*piece.glaze)).runny;
}

/// Flat pieces side by side on edge: a row as deep as the longer side, so that the shorter one
/// stands up.
SizedPiece row_on_edge(const SizedPiece& one, double row_width) {
  const Box box = bounding_box(one.footprint);
  const double width = box.high.x - box.low.x;
  const double depth = box.high.y - box.low.y;
  SizedPiece row = one;
  row.footprint = {{}, {rectangle(row_width, std::max(width, depth))}};
  row.height = Length::from_mm(std::min(width, depth));
  return row;
}

}  // namespace

const Clearances& clearances(const Rules& rules, FiringKind kind) {
  return kind == FiringKind::glaze ? rules.glaze : rules.bisque;
}

Stage stage_going_in(FiringKind kind) {
  return kind == FiringKind::bisque ? Stage::dry : Stage::bisque;
}

SizedPiece sized(const Batch& batch, const PieceKind& piece, FiringKind kind) {
  const Clay& clay = clay_of(batch, piece);
  const Stage stage = stage_going_in(kind);
  const double size = scale(clay.shrinkage, piece.measured, stage);
  return {scaled(piece.footprint, size), size * piece.height,
          mass_scale(clay, piece.measured, stage) * piece.mass};
}

SizedPiece stacked(const Batch& batch, const PieceKind& piece, FiringKind kind, int count) {
  if (count < 1) throw std::invalid_argument{"stacked: a stack has at least one piece"};
  SizedPiece stack = sized(batch, piece, kind);
  if (count == 1) return stack;
  const Stacking& stacking = piece.stacking;
  if (kind != FiringKind::bisque || stacking.how == Stacking::How::none || count > stacking.most) {
    throw std::invalid_argument{"stacked: more pieces than may stand in one stack"};
  }
  const double size = scale(clay_of(batch, piece).shrinkage, piece.measured, stage_going_in(kind));
  const Length step = size * stacking.step;
  switch (stacking.how) {
    case Stacking::How::nested:
    case Stacking::How::flat:
      stack.height += (count - 1) * step;
      break;
    case Stacking::How::rim_to_rim:
      stack.height = count * stack.height;
      break;
    case Stacking::How::on_edge:
      stack = row_on_edge(stack, count * step.mm());
      break;
    case Stacking::How::none:
      break;
  }
  stack.mass = count * stack.mass;
  return stack;
}

SizedPiece standing(const Batch& batch, std::span<const int> kinds, FiringKind kind) {
  if (kinds.empty()) throw std::invalid_argument{"standing: nothing stands there"};
  SizedPiece whole;
  for (std::size_t i = 0; i < kinds.size();) {
    std::size_t next = i;
    while (next < kinds.size() && kinds[next] == kinds[i]) ++next;
    const PieceKind& piece = batch.pieces.at(static_cast<std::size_t>(kinds[i]));
    const SizedPiece run = stacked(batch, piece, kind, static_cast<int>(next - i));
    whole.height += run.height;
    whole.mass += run.mass;
    auto& [discs, outlines] = whole.footprint;
    discs.insert(discs.end(), run.footprint.discs.begin(), run.footprint.discs.end());
    outlines.insert(outlines.end(), run.footprint.outlines.begin(), run.footprint.outlines.end());
    i = next;
  }
  return whole;
}

Length gap_between(const Batch& batch, const PieceKind& a, const PieceKind& b, FiringKind kind) {
  const Clearances& room = clearances(batch.rules, kind);
  const bool runny = kind == FiringKind::glaze && (is_runny(batch, a) || is_runny(batch, b));
  return runny ? std::max(room.gap, room.runny_gap) : room.gap;
}

}  // namespace placer
