// Packs of witness cones: one for each spy hole or a reason why not, each on its shelf with room
// all round, and in sight of its hole where the plan says so.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/rules.h"
#include "placer/model/cone_place.h"

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// A pack where it stands.
struct StandingPack {
  const ConePack* placed = nullptr;
  int level = 0;
  Footprint ground;
  Span z;
  std::string words;
};

std::vector<StandingPack> packs_in(const View& view) {
  std::vector<StandingPack> packs;
  for (std::size_t i = 0; i < view.load.levels.size(); ++i) {
    const double top = view.load.levels[i].shelf_top.mm();
    for (const ConePack& pack : view.load.levels[i].cones) {
      const Outline unturned = rectangle(kPackLong, kPackDeep);
      packs.push_back({&pack,
                       static_cast<int>(i),
                       placed(Footprint{{}, {unturned}}, pack.place),
                       {top, top + kPackHigh},
                       "The cone pack on " + view.words(static_cast<int>(i))});
    }
  }
  return packs;
}

/// Each hole that asks for a pack has one, or the load says why not; never both.
void check_each_hole(const View& view, const std::vector<StandingPack>& packs, Findings& findings) {
  const auto& keep_outs = view.batch.kiln.keep_outs;
  const std::vector<int> holes = holes_for_cones(view.batch.kiln);
  for (std::size_t i = 0; i < keep_outs.size(); ++i) {
    const int hole = static_cast<int>(i);
    const auto of_hole = [hole](const auto& one) { return one.spy_hole == hole; };
    const auto set = std::ranges::count_if(
        packs, [&](const StandingPack& pack) { return of_hole(*pack.placed); });
    const auto reasons = std::ranges::count_if(view.load.no_cones, of_hole);
    const bool asks = std::ranges::find(holes, hole) != holes.end();
    if (set + reasons == (asks ? 1 : 0)) continue;
    add(findings, "cones",
        fmt::format("The {} has {} cone packs in {} and {} reasons why it has none.",
                    keep_outs[i].what, set, view.words(), reasons));
  }
}

void too_near(const StandingPack& pack, const std::string& to, double is, double asked,
              Findings& findings) {
  if (is >= asked - kTolerance) return;
  const TwoLengths lengths = two_lengths(is, asked);
  add(findings, "cones-place",
      fmt::format("{} is {} from {}; {} are asked.", pack.words, lengths.is, to, lengths.asked));
}

void check_place(const View& view, const StandingPack& pack, Findings& findings) {
  const Kiln& kiln = view.batch.kiln;
  const double out = -inset(pack.ground, view.shelves[index(pack.level)].edge);
  if (out > kTolerance) {
    add(findings, "cones-place",
        fmt::format("{} sticks out {} over the edge.", pack.words, two_lengths(out, 0).is));
  }
  too_near(pack, "the wall", inset(pack.ground, kiln.chamber), kiln.wall_clearance.mm(), findings);
  const double room = view.load.levels[index(pack.level)].clear_height.mm();
  if (room < kPackHigh - kTolerance) {
    const TwoLengths lengths = two_lengths(room, kPackHigh);
    add(findings, "cones-place",
        fmt::format("{} has {} of room over the shelf; {} are asked.", pack.words, lengths.is,
                    lengths.asked));
  }
  for (const KeepOut& keep_out : kiln.keep_outs) {
    const bool whole = keep_out.to <= keep_out.from;
    const Span z{keep_out.from.mm(), keep_out.to.mm()};
    if (is_spy_hole(keep_out) || (!whole && !overlap(pack.z, z))) continue;
    too_near(pack, "the room kept for the " + keep_out.what, gap(pack.ground, keep_out.area), 0,
             findings);
  }
}

/// What a piece asks on all sides, and cones at least.
double asked_by(const View& view, const PieceKind& kind) {
  return std::max(gap_between(view.batch, kind, kind, view.kind).mm(), kPackGap);
}

void check_company(const View& view, const std::vector<StandingPack>& packs,
                   const StandingPack& pack, Findings& findings) {
  for (const StandingPiece& piece : view.pieces) {
    if (!overlap(piece.z, pack.z)) continue;
    too_near(pack, view.words(piece), gap(pack.ground, piece.ground), asked_by(view, *piece.kind),
             findings);
  }
  for (const StandingPost& post : view.posts) {
    if (!overlap(post.z, pack.z)) continue;
    too_near(pack, "a post", gap(pack.ground, post.foot), kPackGap, findings);
  }
  for (const StandingPack& other : packs) {
    // Two holes may look at one pack.
    if (&other == &pack || other.placed->place == pack.placed->place) continue;
    if (!overlap(other.z, pack.z)) continue;
    too_near(pack, "another pack", gap(pack.ground, other.ground), kPackGap, findings);
  }
}

/// From the eye to both ends of the pack: nothing that is as high as the cones' seen part may
/// stand between.
void check_sight(const View& view, const std::vector<StandingPack>& packs, const StandingPack& pack,
                 Findings& findings) {
  const Kiln& kiln = view.batch.kiln;
  const KeepOut& hole = kiln.keep_outs[index(pack.placed->spy_hole)];
  const bool whole = hole.to <= hole.from;
  const Span looks{whole ? 0 : hole.from.mm(), whole ? kiln.height.mm() : hole.to.mm()};
  const double low = std::max(looks.low, pack.z.low);
  const double high = std::min(looks.high, pack.z.high);
  const double seen = high - low;
  const auto hidden = [&](const std::string& by) {
    add(findings, "cones-hidden",
        fmt::format("{} is said to be seen from the {}, but {}.", pack.words, hole.what, by));
  };
  if (seen < kLeastSeen - kTolerance) {
    hidden(fmt::format("the hole looks at {} of its height",
                       two_lengths(std::max(0.0, seen), kLeastSeen).is));
    return;
  }
  const Point ends = kPackLong / 2 * direction(pack.placed->place.turn_deg);
  const Point middle = pack.placed->place.at;
  Outline triangle{{eye_of(hole, kiln), middle - ends, middle + ends}};
  if (signed_area(triangle) < 0) std::swap(triangle.corners[1], triangle.corners[2]);
  const Footprint sight{{}, {triangle}};
  // What is lower than this leaves enough of the cones to be seen over it.
  const double over = std::max(low, std::min(low + kLeastSeen, high - kLeastSeen));
  const Span hides{over, pack.z.high};
  for (const StandingPiece& piece : view.pieces) {
    if (!overlap(piece.z, hides) || gap(piece.ground, sight) >= -kTolerance) continue;
    hidden(view.words(piece) + " stands between");
  }
  for (const StandingPost& post : view.posts) {
    if (!overlap(post.z, hides) || gap(post.foot, sight) >= -kTolerance) continue;
    hidden("a post stands between");
  }
  for (const StandingShelf& shelf : view.shelves) {
    if (!overlap(shelf.z, hides) || gap(sight, shelf.edge) >= -kTolerance) continue;
    hidden(view.words(shelf.level) + " lies between");
  }
  for (const StandingPack& other : packs) {
    const bool same = other.placed->place == pack.placed->place;
    if (same || !overlap(other.z, hides) || gap(other.ground, sight) >= -kTolerance) continue;
    hidden("another pack stands between");
  }
}

}  // namespace

void check_cones(const View& view, Findings& findings) {
  const std::vector<StandingPack> packs = packs_in(view);
  check_each_hole(view, packs, findings);
  for (const StandingPack& pack : packs) {
    check_place(view, pack, findings);
    check_company(view, packs, pack, findings);
    if (pack.placed->seen) check_sight(view, packs, pack, findings);
  }
}

}  // namespace placer::check
