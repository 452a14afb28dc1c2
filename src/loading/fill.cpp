#include "loading/fill.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "loading/index.h"
#include "placer/packing/packing.h"

namespace placer::loading {
namespace {

/// An item of the packing problem and what it stands for.
struct Offer {
  int sort = 0;
  int stack = 1;
  packing::Item item;
};

packing::Item item_of(const Sort& sort, int stack, int count) {
  packing::Item item;
  item.shape = at(sort.stacks, stack - 1).footprint;
  item.count = count;
  item.turns_deg = sort.turns;
  return item;
}

/// Ground of one with half the gap round it: what it uses up of a shelf, roughly.
double ground_used(const packing::Item& item, double gap) {
  const double spread = std::sqrt(area(item.shape) / 3.14159265358979) + gap / 2;
  return 3.14159265358979 * spread * spread;
}

/// The sorts that fit under the shelf above, tall ones first; no more of them than could ever
/// stand there, so that a large batch costs no more than a shelf's worth.
std::vector<Offer> offers(const std::vector<Sort>& sorts, const std::vector<int>& left,
                          const Room& room) {
  std::vector<int> order(sorts.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return at(sorts, a).height() > at(sorts, b).height(); });
  const double ground = area(room.ground);
  double used = 0;
  std::vector<Offer> offers;
  for (const int s : order) {
    const Sort& sort = at(sorts, s);
    const int most = std::min(most_in_stack(sort, room.clear), at(left, s));
    if (most == 0 || used > 1.3 * ground) continue;
    const auto offer = [&](int stack, int count) {
      if (count == 0) return;
      packing::Item item = item_of(sort, stack, count);
      const double one = ground_used(item, room.gap);
      item.count = std::min(count, static_cast<int>(1.2 * ground / one) + 1);
      const double tall = at(sort.stacks, stack - 1).height.mm() / room.clear.mm();
      item.value = one * (0.2 + tall * tall) * std::sqrt(one);
      used += item.count * one;
      offers.push_back({s, stack, std::move(item)});
    };
    offer(most, at(left, s) / most);
    offer(at(left, s) % most == 0 ? 1 : at(left, s) % most, at(left, s) % most == 0 ? 0 : 1);
  }
  return offers;
}

packing::Options options_of(const Room& room) {
  packing::Options options;
  options.effort =
      room.effort == Effort::thorough ? packing::Effort::quick : packing::Effort::glance;
  options.seed = room.seed;
  options.threads = room.threads;
  return options;
}

/// The gap of the whole shelf, and the halos of the runny pieces where there are others too.
void set_gaps(const std::vector<Sort>& sorts, const Room& room, std::vector<Offer>& offers,
              packing::Problem& problem) {
  const auto runny = [&](const Offer& offer) { return at(sorts, offer.sort).runny; };
  problem.gap = room.gap;
  if (room.runny_gap <= room.gap) return;
  if (std::all_of(offers.begin(), offers.end(), runny)) {
    problem.gap = room.runny_gap;
    return;
  }
  for (Offer& offer : offers) {
    if (runny(offer)) offer.item.halo = room.runny_gap - room.gap;
  }
}

Filled answer(const std::vector<Offer>& offers, const packing::Packing& packing) {
  Filled filled;
  filled.pattern = packing.orderly ? packing.pattern : "";
  for (const packing::Place& place : packing.places) {
    const Offer& offer = at(offers, place.item);
    filled.set.push_back({offer.sort, offer.stack, place.at});
  }
  return filled;
}

packing::Packing pack(const std::vector<Offer>& offers, packing::Problem& problem,
                      const Room& room) {
  problem.items.clear();
  for (const Offer& offer : offers) problem.items.push_back(offer.item);
  return offers.size() == 1 ? packing::most_pieces(problem, options_of(room))
                            : packing::most_value(problem, options_of(room));
}

}  // namespace

Filled fill(const std::vector<Sort>& sorts, const std::vector<int>& left, const Room& room) {
  std::vector<Offer> all = offers(sorts, left, room);
  if (all.empty()) return {};
  packing::Problem problem;
  problem.region = room.ground;
  if (all.size() > 1) {  // a shelf of one sort, in rows, when that sort alone fills it
    std::vector<Offer> first{all.front()};
    set_gaps(sorts, room, first, problem);
    const packing::Packing alone = pack(first, problem, room);
    if (count_of(alone.places) < first.front().item.count && !alone.places.empty()) {
      return answer(first, alone);
    }
  }
  set_gaps(sorts, room, all, problem);
  return answer(all, pack(all, problem, room));
}

bool fits(const Sort& sort, const Room& room) {
  if (sort.height() > room.clear) return false;
  std::vector<Sort> sorts{sort};
  packing::Problem problem;
  problem.region = room.ground;
  std::vector<Offer> one{{0, 1, item_of(sort, 1, 1)}};
  set_gaps(sorts, room, one, problem);
  problem.items = {one.front().item};
  return packing::fits_alone(problem, 0);
}

}  // namespace placer::loading
