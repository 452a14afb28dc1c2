// Pieces: on their shelf, and clear of each other, of posts, keep-outs, walls, other shelves and
// the lid.
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "check/rules.h"

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

bool within(const Box& a, const Box& b, double reach) {
  return a.low.x < b.high.x + reach && b.low.x < a.high.x + reach && a.low.y < b.high.y + reach &&
         b.low.y < a.high.y + reach;
}

void too_close(const View& view, const StandingPiece& a, const StandingPiece& b,
               Findings& findings) {
  const double asked = gap_between(view.batch, *a.kind, *b.kind, view.kind).mm();
  if (!within(a.box, b.box, asked)) return;
  const double room = gap(a.ground, b.ground);
  if (room >= asked - kTolerance) return;
  const TwoLengths lengths = two_lengths(room, asked);
  const std::string message =
      room < -kTolerance ? fmt::format("{} and {} overlap by {}.", view.words(a), view.words(b),
                                       two_lengths(-room, 0).is)
                         : fmt::format("{} and {} are {} apart; {} are asked.", view.words(a),
                                       view.words(b), lengths.is, lengths.asked);
  add(findings, "close", message);
}

// Sweeps from left to right: only pieces that are near each other are compared.
void check_spacing(const View& view, Findings& findings) {
  const Clearances& room = clearances(view.batch.rules, view.kind);
  const double reach = std::max(room.gap.mm(), room.runny_gap.mm());
  std::vector<std::size_t> order(view.pieces.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return view.pieces[i].box.low.x; });
  std::vector<std::size_t> passing;
  for (const std::size_t i : order) {
    const StandingPiece& piece = view.pieces[i];
    std::erase_if(passing, [&](std::size_t j) {
      return view.pieces[j].box.high.x + reach < piece.box.low.x;
    });
    for (const std::size_t j : passing) {
      const StandingPiece& other = view.pieces[j];
      if (overlap(piece.z, other.z)) too_close(view, other, piece, findings);
    }
    passing.push_back(i);
  }
}

void check_own_shelf(const View& view, const StandingPiece& piece, Findings& findings) {
  const double out = -inset(piece.ground, view.shelves[index(piece.level)].edge);
  if (out <= kTolerance) return;
  add(findings, "overhang",
      fmt::format("{} sticks out {} over the edge of its shelf.", view.words(piece),
                  two_lengths(out, 0).is));
}

void check_wall(const View& view, const StandingPiece& piece, Findings& findings) {
  const double asked = view.batch.kiln.wall_clearance.mm();
  const double room = inset(piece.ground, view.batch.kiln.chamber);
  if (room >= asked - kTolerance) return;
  const TwoLengths lengths = two_lengths(room, asked);
  add(findings, "wall",
      fmt::format("{} is {} from the wall; {} are asked.", view.words(piece), lengths.is,
                  lengths.asked));
}

void check_near_posts(const View& view, const StandingPiece& piece, Findings& findings) {
  const double asked = clearances(view.batch.rules, view.kind).gap.mm();
  for (const StandingPost& post : view.posts) {
    if (!overlap(piece.z, post.z) || !within(piece.box, post.box, asked)) continue;
    const double room = gap(piece.ground, post.foot);
    if (room >= asked - kTolerance) continue;
    const TwoLengths lengths = two_lengths(room, asked);
    add(findings, "post-near",
        fmt::format("{} is {} from a post at x {:g}, y {:g} mm; {} are asked.", view.words(piece),
                    lengths.is, post.placed->at.x, post.placed->at.y, lengths.asked));
  }
}

Span height_of(const Kiln& kiln, const KeepOut& keep_out) {
  if (keep_out.to <= keep_out.from) return {0, kiln.height.mm()};
  return {keep_out.from.mm(), keep_out.to.mm()};
}

void check_keep_outs(const View& view, Findings& findings) {
  for (const KeepOut& keep_out : view.batch.kiln.keep_outs) {
    const Span z = height_of(view.batch.kiln, keep_out);
    const auto report = [&](const std::string& what, double depth) {
      add(findings, "keep-out",
          fmt::format("{} reaches {} into the room kept for the {}.", what,
                      two_lengths(depth, 0).is, keep_out.what));
    };
    for (const StandingPiece& piece : view.pieces) {
      const double room = overlap(piece.z, z) ? gap(piece.ground, keep_out.area) : 0;
      if (room < -kTolerance) report(view.words(piece), -room);
    }
    if (!keep_out.shelves_too) continue;
    for (const StandingShelf& shelf : view.shelves) {
      const double room = overlap(shelf.z, z) ? gap(keep_out.area, shelf.edge) : 0;
      if (room < -kTolerance) report(view.words(shelf.level), -room);
    }
    for (const StandingPost& post : view.posts) {
      const double room = overlap(post.z, z) ? gap(post.foot, keep_out.area) : 0;
      if (room < -kTolerance) report("A post in " + view.words(), -room);
    }
  }
}

// A shelf of any column that is over the piece, or beside its upper part.
void check_under(const View& view, const StandingPiece& piece, const StandingShelf& shelf,
                 Findings& findings) {
  const Clearances& asked = clearances(view.batch.rules, view.kind);
  const double air = shelf.z.low - piece.z.high;
  if (piece.z.low >= shelf.z.high - kTolerance || air >= asked.air.mm() - kTolerance) return;
  if (!within(piece.box, shelf.box, asked.gap.mm())) return;
  const double beside = gap(piece.ground, shelf.edge);
  if (beside < -kTolerance) {
    const TwoLengths lengths = two_lengths(air, asked.air.mm());
    add(findings, "air",
        fmt::format("There are {} of air between {} and {} over it; {} are asked.", lengths.is,
                    view.words(piece), view.words(shelf.level), lengths.asked));
  } else if (air < -kTolerance && beside < asked.gap.mm() - kTolerance) {
    const TwoLengths lengths = two_lengths(beside, asked.gap.mm());
    add(findings, "shelf-near",
        fmt::format("{} stands {} beside the edge of {}; {} are asked.", view.words(piece),
                    lengths.is, view.words(shelf.level), lengths.asked));
  }
}

}  // namespace

void check_pieces(const View& view, Findings& findings) {
  check_spacing(view, findings);
  for (const StandingPiece& piece : view.pieces) {
    check_own_shelf(view, piece, findings);
    check_wall(view, piece, findings);
    check_near_posts(view, piece, findings);
  }
  check_keep_outs(view, findings);
}

void check_heights(const View& view, Findings& findings) {
  const Kiln& kiln = view.batch.kiln;
  for (const StandingPiece& piece : view.pieces) {
    for (const StandingShelf& shelf : view.shelves) {
      if (shelf.level != piece.level) check_under(view, piece, shelf, findings);
    }
    const double room = kiln.height.mm() - piece.z.high;
    if (room >= kiln.under_lid.mm() - kTolerance) continue;
    const TwoLengths lengths = two_lengths(room, kiln.under_lid.mm());
    add(findings, "lid-room",
        fmt::format("There are {} between {} and the lid or roof; {} are asked.", lengths.is,
                    view.words(piece), lengths.asked));
  }
}

}  // namespace placer::check
