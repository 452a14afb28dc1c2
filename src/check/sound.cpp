// Is the plan one at all: does it name things that exist, with numbers that are numbers?
#include <fmt/format.h>

#include <cmath>

#include "check/rules.h"

namespace placer::check {
namespace {

class Sound {
 public:
  Sound(const Batch& batch, Findings& findings) : batch_{batch}, findings_{findings} {}

  void ask(const LoadPlan& plan) {
    for (const KilnLoad& load : plan.firings) ask(load);
    for (const LeftOut& left : plan.left_out) {
      exists("piece", left.piece, batch_.pieces.size());
      exists("load", left.load, batch_.loads.size());
    }
    for (const Ungranted& wish : plan.ungranted) {
      exists("piece", wish.piece, batch_.pieces.size());
      exists("load", wish.load, batch_.loads.size());
    }
    for (const FurnitureUse& use : plan.shelves)
      exists("shelf", use.kind, batch_.kiln.shelves.size());
    for (const FurnitureUse& use : plan.posts) exists("post", use.kind, batch_.kiln.posts.size());
  }

 private:
  void exists(const char* what, int i, std::size_t count) {
    if (i >= 0 && static_cast<std::size_t>(i) < count) return;
    add(findings_, "plan",
        fmt::format("The plan names {} no. {}, but the studio has {}.", what, i + 1, count));
  }

  void number(const char* what, double value) {
    if (std::isfinite(value)) return;
    add(findings_, "plan", fmt::format("The plan has {} that is no number.", what));
  }

  void place(const char* what, const Placement& where) {
    number(what, where.at.x);
    number(what, where.at.y);
    number(what, where.turn_deg);
  }

  void bridge(const Level& level) {
    if (level.bridge == -1) return;
    const std::vector<Bridge>& bridges = batch_.kiln.bridges;
    exists("bridge", level.bridge, bridges.size());
    if (level.bridge < 0 || static_cast<std::size_t>(level.bridge) >= bridges.size()) return;
    const std::vector<int>& over = bridges[static_cast<std::size_t>(level.bridge)].over;
    if (over.size() < 2)
      add(findings_, "plan", "The studio has a bridge over fewer than two columns.");
    for (const int column : over) exists("column", column, batch_.kiln.columns.size());
    if (over.empty() || over.front() == level.column) return;
    add(findings_, "plan", "The plan puts a bridge into another column than its first.");
  }

  void ask(const PlacedPost& post) {
    place("a post's place", {post.at, post.turn_deg});
    if (post.parts.empty()) add(findings_, "plan", "The plan has a post without any parts.");
    for (const int part : post.parts) exists("post", part, batch_.kiln.posts.size());
  }

  void ask(const PlacedPiece& piece) {
    place("a piece's place", piece.place);
    number("a piece's height", piece.height.mm());
    number("a piece's mass", piece.mass.kg());
    exists("piece", piece.piece, batch_.pieces.size());
    for (const int kind : piece.stack) exists("piece", kind, batch_.pieces.size());
  }

  void ask(const KilnLoad& load) {
    exists("load", load.load, batch_.loads.size());
    number("a load's mass", load.ware.kg() + load.furniture.kg());
    for (const PlacedPost& post : load.floor_posts) ask(post);
    for (const Level& level : load.levels) {
      exists("column", level.column, batch_.kiln.columns.size());
      bridge(level);
      exists("shelf", level.shelf, batch_.kiln.shelves.size());
      place("a shelf's place", level.shelf_at);
      number("a shelf's height", level.shelf_top.mm() + level.clear_height.mm() + level.air.mm());
      for (const PlacedPost& post : level.posts) ask(post);
      for (const PlacedPiece& piece : level.pieces) ask(piece);
      for (const ConePack& pack : level.cones) {
        exists("keep-out", pack.spy_hole, batch_.kiln.keep_outs.size());
        place("a cone pack's place", pack.place);
      }
    }
    for (const NoCones& none : load.no_cones) {
      exists("keep-out", none.spy_hole, batch_.kiln.keep_outs.size());
      if (none.reason.empty()) {
        add(findings_, "plan", "The plan has a spy hole without cones and without a reason.");
      }
    }
  }

  const Batch& batch_;
  Findings& findings_;
};

}  // namespace

void check_sound(const Batch& batch, const LoadPlan& plan, Findings& findings) {
  Sound{batch, findings}.ask(plan);
}

}  // namespace placer::check
