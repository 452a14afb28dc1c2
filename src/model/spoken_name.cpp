// A name for a plan that two people can say across a studio: a word and a number.
#include <array>
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>

#include "placer/model/load_plan.h"

namespace placer {
namespace {

constexpr std::array<std::string_view, 64> kWords{
    "ALDER",  "APPLE",  "ASH",    "ASPEN",  "BEECH",  "BIRCH",  "BRAMBLE", "BRACKEN",
    "CEDAR",  "CHERRY", "CLOVER", "COPSE",  "CROW",   "CURLEW", "DOVE",    "ELDER",
    "ELM",    "EMBER",  "FERN",   "FINCH",  "FLAX",   "FLINT",  "GORSE",   "HAWK",
    "HAZEL",  "HEATH",  "HERON",  "HOLLY",  "IVY",    "JAY",    "KESTREL", "LADLE",
    "LARCH",  "LARK",   "LINDEN", "LINNET", "MAPLE",  "MEDLAR", "MOSS",    "NETTLE",
    "OAK",    "OSIER",  "OTTER",  "OWL",    "PEAR",   "PINE",   "PLOVER",  "PLUM",
    "POPLAR", "QUINCE", "REED",   "ROBIN",  "ROOK",   "ROWAN",  "RUSH",    "SEDGE",
    "SLOE",   "SORREL", "SPRUCE", "SWIFT",  "TEASEL", "THRUSH", "WILLOW",  "WREN"};

/// FNV-1a, 64 bits, fed byte by byte from the low end: the same on every machine.
/// @source G. Fowler, L. C. Noll, K.-P. Vo, "The FNV non-cryptographic hash algorithm"
class Hash {
 public:
  void add(std::int64_t value) {
    auto bits = static_cast<std::uint64_t>(value);
    for (int i = 0; i < 8; ++i, bits >>= 8U) {
      state_ = (state_ ^ (bits & 0xFFU)) * 0x100000001B3ULL;
    }
  }
  /// To a thousandth of a millimetre or degree: finer differences are not a different plan.
  void add(double value) { add(static_cast<std::int64_t>(std::llround(value * 1000))); }
  void add(int value) { add(std::int64_t{value}); }
  void add(Length value) { add(value.mm()); }
  void add(const Placement& where) {
    add(where.at.x);
    add(where.at.y);
    add(where.turn_deg);
  }
  void add(const std::vector<int>& values) {
    add(static_cast<std::int64_t>(values.size()));
    for (const int value : values) add(value);
  }
  std::uint64_t value() const { return state_; }

 private:
  std::uint64_t state_ = 0xCBF29CE484222325ULL;
};

void add_posts(Hash& hash, const std::vector<PlacedPost>& posts) {
  hash.add(static_cast<std::int64_t>(posts.size()));
  for (const PlacedPost& post : posts) {
    hash.add(Placement{post.at, post.turn_deg});
    hash.add(post.parts);
  }
}

void add_level(Hash& hash, const Level& level) {
  hash.add(level.column);
  hash.add(level.level);
  hash.add(level.shelf);
  hash.add(level.shelf_at);
  hash.add(level.shelf_top);
  add_posts(hash, level.posts);
  hash.add(static_cast<std::int64_t>(level.pieces.size()));
  for (const PlacedPiece& piece : level.pieces) {
    hash.add(piece.piece);
    hash.add(piece.number);
    hash.add(piece.place);
    hash.add(piece.stacked);
    hash.add(piece.stack);
  }
}

}  // namespace

std::string spoken_name(const LoadPlan& plan) {
  Hash hash;
  for (const KilnLoad& firing : plan.firings) {
    hash.add(firing.load);
    hash.add(firing.round);
    add_posts(hash, firing.floor_posts);
    hash.add(static_cast<std::int64_t>(firing.levels.size()));
    for (const Level& level : firing.levels) add_level(hash, level);
  }
  for (const LeftOut& left : plan.left_out) {
    hash.add(left.piece);
    hash.add(left.load);
    hash.add(left.count);
  }
  const std::uint64_t mixed = hash.value() ^ (hash.value() >> 32U);
  const auto word = static_cast<std::size_t>(mixed % kWords.size());
  const auto number = static_cast<int>(mixed / kWords.size() % 90) + 10;
  return std::string{kWords.at(word)} + "-" + std::to_string(number);
}

}  // namespace placer
