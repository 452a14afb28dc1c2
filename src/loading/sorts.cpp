#include "loading/sorts.h"

#include <algorithm>

#include "loading/index.h"

namespace placer::loading {
namespace {

bool goes_into(const PieceKind& piece, int load) {
  return std::find(piece.loads.begin(), piece.loads.end(), load) != piece.loads.end();
}

bool is_runny(const Batch& batch, const PieceKind& piece, FiringKind kind) {
  return kind == FiringKind::glaze && piece.glaze && at(batch.glazes, *piece.glaze).runny;
}

/// The pot that the lid belongs to, or -1.
int pot_of(const Batch& batch, const PieceKind& lid, int load) {
  if (!lid.wishes.inside) return -1;
  for (int i = 0; i < count_of(batch.pieces); ++i) {
    const PieceKind& pot = at(batch.pieces, i);
    if (pot.name == *lid.wishes.inside && &pot != &lid && goes_into(pot, load)) return i;
  }
  return -1;
}

/// Pieces that are to stay upright are not set rim to rim or on edge.
bool may_be_stacked(const PieceKind& piece) {
  const Stacking::How how = piece.stacking.how;
  const bool turns_over = how == Stacking::How::rim_to_rim || how == Stacking::How::on_edge;
  return how != Stacking::How::none && !(piece.wishes.upright && turns_over);
}

Sort sort_of(const Batch& batch, std::vector<int> kinds, int count, int load) {
  const FiringKind kind = at(batch.loads, load).kind;
  const PieceKind& lowest = at(batch.pieces, kinds.front());
  Sort sort;
  sort.count = count;
  sort.wishes = lowest.wishes;
  for (const int k : kinds) sort.runny |= is_runny(batch, at(batch.pieces, k), kind);
  if (lowest.wishes.turn_deg) sort.turns = {*lowest.wishes.turn_deg};
  const bool stacks = kind == FiringKind::bisque && kinds.size() == 1 && may_be_stacked(lowest);
  const int most = stacks ? std::max(1, std::min(count, lowest.stacking.most)) : 1;
  if (kinds.size() > 1) sort.stacks.push_back(standing(batch, kinds, kind));
  for (int n = 1; n <= most && kinds.size() == 1; ++n) {
    sort.stacks.push_back(stacked(batch, lowest, kind, n));
  }
  sort.kinds = std::move(kinds);
  return sort;
}

}  // namespace

double Sort::ground() const { return area(stacks.front().footprint); }

std::vector<Sort> sorts_of(const Batch& batch, int load) {
  std::vector<int> alone;  // of each kind, how many stand without a lid or a pot
  for (const PieceKind& piece : batch.pieces) {
    alone.push_back(goes_into(piece, load) ? std::max(0, piece.count) : 0);
  }
  std::vector<Sort> sorts;
  for (int i = 0; i < count_of(batch.pieces); ++i) {
    const int pot =
        goes_into(at(batch.pieces, i), load) ? pot_of(batch, at(batch.pieces, i), load) : -1;
    if (pot < 0) continue;
    const int pairs = std::min(at(alone, pot), at(alone, i));
    if (pairs == 0) continue;
    at(alone, pot) -= pairs;
    at(alone, i) -= pairs;
    sorts.push_back(sort_of(batch, {pot, i}, pairs, load));
  }
  for (int i = 0; i < count_of(batch.pieces); ++i) {
    if (at(alone, i) > 0) sorts.push_back(sort_of(batch, {i}, at(alone, i), load));
  }
  return sorts;
}

}  // namespace placer::loading
