#include "loading/memory.h"

#include <bit>

#include "loading/index.h"

namespace placer::loading {
namespace {

/// Two FNV-1a sums over the same numbers from different beginnings: 128 bits that two different
/// problems do not share in practice.
class Sum {
 public:
  void add(std::uint64_t value) {
    for (int i = 0; i < 2; ++i) {
      auto& sum = at(sums_, i);
      sum = (sum ^ (value + static_cast<std::uint64_t>(i))) * 0x100000001B3ULL;
      sum ^= sum >> 29U;
    }
  }
  void add(double value) { add(std::bit_cast<std::uint64_t>(value)); }
  void add(Point p) {
    add(p.x);
    add(p.y);
  }
  void add(const Outline& outline) {
    add(static_cast<std::uint64_t>(outline.corners.size()));
    for (const Point p : outline.corners) add(p);
  }
  void add(const Disc& disc) {
    add(disc.centre);
    add(disc.radius);
  }
  void add(const Footprint& shape) {
    add(static_cast<std::uint64_t>(shape.discs.size()));
    for (const Disc& disc : shape.discs) add(disc);
    add(static_cast<std::uint64_t>(shape.outlines.size()));
    for (const Outline& outline : shape.outlines) add(outline);
  }
  std::array<std::uint64_t, 2> value() const { return sums_; }

 private:
  std::array<std::uint64_t, 2> sums_{0xCBF29CE484222325ULL, 0x9E3779B97F4A7C15ULL};
};

std::array<std::uint64_t, 2> sum_of(const packing::Problem& problem,
                                    const packing::Options& options) {
  Sum sum;
  sum.add(problem.region.outline);
  sum.add(problem.region.round.value_or(Disc{}));
  for (const Footprint& keep_out : problem.region.keep_outs) sum.add(keep_out);
  sum.add(problem.gap);
  for (const packing::Item& item : problem.items) {
    sum.add(item.shape);
    sum.add(static_cast<std::uint64_t>(item.count));
    sum.add(item.value);
    sum.add(item.halo);
    sum.add(static_cast<std::uint64_t>(item.turns_deg.size()));
    for (const double turn : item.turns_deg) sum.add(turn);
  }
  sum.add(options.seed);
  sum.add(options.steps);
  return sum.value();
}

}  // namespace

packing::Packing Memory::pack(const packing::Problem& problem, const packing::Options& options) {
  const Key key = sum_of(problem, options);
  const auto known = known_.find(key);
  if (known != known_.end()) return known->second;
  packing::Packing packing = problem.items.size() == 1 ? packing::most_pieces(problem, options)
                                                       : packing::most_value(problem, options);
  return known_.emplace(key, std::move(packing)).first->second;
}

}  // namespace placer::loading
