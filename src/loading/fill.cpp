#include "loading/fill.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "loading/company.h"
#include "loading/index.h"
#include "placer/packing/packing.h"

namespace placer::loading {
namespace {

constexpr double kPlenty = 1.4;   // shelves' worth of ground offered at once
constexpr double kNoMore = 1.0;   // likewise, when those wanted most come first and alone
constexpr double kCrumbs = 0.5;   // more of it in small pieces, for the holes
constexpr double kPinned = 1000;  // a pinned piece is set as soon as it can be

/// An item of the packing problem and what it stands for.
struct Offer {
  int sort = 0;
  int stack = 1;
  packing::Item item;
};

/// Ground of a room, roughly: what lies mostly beyond its edge takes nothing.
double free_ground(const Room& room) {
  Region bare = room.ground;
  bare.keep_outs.clear();
  const double whole = area(bare);
  double free = whole;
  for (const Footprint& keep_out : room.ground.keep_outs) {
    const double taken = area(keep_out);
    if (taken < whole / 2) free -= taken;
  }
  return std::max(free, whole / 10);
}

/// One shelf being filled.
class Filling {
 public:
  Filling(const Job& job, const Supply& supply, const Room& room, const Care& care, bool in_order)
      : job_{&job},
        supply_{&supply},
        care_{care},
        room_{room},
        left_{supply.left},
        in_order_{in_order},
        free_{free_ground(room)},
        ground_per_kg_{std::isfinite(room.most_kg) ? free_ / std::max(1e-9, room.most_kg) : 0} {}

  Filled run() {
    set_pinned();
    for (const Side side : {Side::front, Side::back}) set_side(side);
    set_rest();
    return std::move(filled_);
  }

 private:
  const Sort& sort(int s) const { return at(job_->sorts, s); }

  int most_in_stack(int s) const {
    int most = 0;
    for (int n = 1; n <= count_of(sort(s).stacks); ++n) {
      if (may_stand(*job_, sort(s), n, room_)) most = n;
    }
    return most;
  }

  const SizedPiece& size(int s, int stack) const { return at(sort(s).stacks, stack - 1); }

  /// What a stack uses up of the shelf, mm²: its ground, or as large a part of all of it as it
  /// takes of the mass that the shelf may bear.
  double used_by(int s, int stack) const {
    const SizedPiece& one = size(s, stack);
    return std::max(ground_used(one.footprint, room_.gap), ground_per_kg_ * one.mass.kg());
  }

  void add(const Standing& standing) {
    room_.most_kg -= size(standing.sort, standing.stack).mass.kg();
    filled_.set.push_back(standing);
    filled_.worth +=
        standing.stack * at(job_->worth, standing.sort) * at(supply_->price, standing.sort);
    at(left_, standing.sort) -= standing.stack;
  }

  /// What is set stands in the way of the next.
  void keep_clear_of_set(std::size_t from) {
    for (std::size_t i = from; i < filled_.set.size(); ++i) {
      const Standing& one = filled_.set[i];
      free_ -= ground_used(at(sort(one.sort).stacks, one.stack - 1).footprint, room_.gap);
      room_.ground.keep_outs.push_back(
          placed(at(sort(one.sort).stacks, one.stack - 1).footprint, one.place));
      if (sort(one.sort).runny) runny_set_ = true;
    }
  }

  bool welcome(int s) const {
    return std::all_of(filled_.set.begin(), filled_.set.end(),
                       [&](const Standing& one) { return !apart(*job_, sort(s), sort(one.sort)); });
  }

  void set_pinned() {
    for (int s = 0; s < count_of(job_->sorts); ++s) {
      const auto& pinned = sort(s).wishes.pinned;
      if (!pinned || !at(supply_->pinned, s) || at(left_, s) == 0 || !welcome(s)) continue;
      if (!may_stand(*job_, sort(s), 1, room_)) continue;
      const Footprint there = placed(sort(s).stacks.front().footprint, *pinned);
      if (inset(there, room_.ground) < 0 || keep_out_gap(there, room_.ground) < gap_for(s))
        continue;
      const std::size_t before = filled_.set.size();
      add({s, 1, *pinned});
      filled_.worth += kPinned * at(job_->worth, s);
      keep_clear_of_set(before);
    }
  }
  double gap_for(int s) const {
    return runny_set_ || sort(s).runny ? std::max(room_.gap, room_.runny_gap) : room_.gap;
  }

  /// Pieces that wish to stand in front or at the back have that half of the shelf to themselves
  /// first.
  void set_side(Side side) {
    std::vector<char> asked(job_->sorts.size());
    bool any = false;
    for (int s = 0; s < count_of(job_->sorts); ++s) {
      at(asked, s) = sort(s).wishes.side == side && at(left_, s) > 0;
      any |= at(asked, s) != 0;
    }
    if (!any) return;
    const Region whole = room_.ground;
    add_far_half(*job_->batch, side, room_.ground);
    const std::size_t before = filled_.set.size();
    pack(offers(asked));
    room_.ground = whole;
    keep_clear_of_set(before);
  }

  void set_rest() {
    std::vector<char> asked(job_->sorts.size());
    for (int s = 0; s < count_of(job_->sorts); ++s) at(asked, s) = !sort(s).wishes.side;
    for (int pass = 0; pass < 2; ++pass) {
      const bool fresh = filled_.set.empty();
      std::vector<Offer> all = offers(asked, fresh);
      if (all.empty()) return;
      const std::size_t before = filled_.set.size();
      if (fresh && all.size() > 1 && fills_alone(all.front())) {
        pack({all.front()});
      } else {
        pack(std::move(all));
      }
      if (!fresh) return;
      keep_clear_of_set(before);  // small ones into the holes
    }
  }

  bool fills_alone(const Offer& offer) const {
    return offer.item.count * ground_used(offer.item.shape, room_.gap) > 0.9 * free_;
  }

  /// The sorts asked for, the highest worth for their ground first; of each no more than could ever
  /// stand there, so that a large batch costs no more than a shelf's worth.
  std::vector<Offer> offers(const std::vector<char>& asked, bool first = false) const {
    std::vector<int> order;
    for (int s = 0; s < count_of(job_->sorts); ++s) {
      if (at(asked, s) && at(left_, s) > 0 && welcome(s) && most_in_stack(s) > 0)
        order.push_back(s);
    }
    const auto wanted = [&](int s) {
      const int n = std::min(most_in_stack(s), at(left_, s));
      return n * at(job_->worth, s) * at(supply_->price, s) / used_by(s, n);
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](int a, int b) { return wanted(a) > wanted(b); });
    const double ground = std::max(0.0, free_);
    double used = 0;
    std::vector<Offer> offers;
    std::vector<int> rest;
    for (const int s : order) {
      const bool company = std::none_of(offers.begin(), offers.end(), [&](const Offer& offer) {
        return apart(*job_, sort(s), sort(offer.sort));
      });
      if (!company) continue;
      const double more = left_ground(s);
      const bool enough =
          first && in_order_ ? used > 0 && used + more > kNoMore * ground : used > kPlenty * ground;
      if (enough) {
        rest.push_back(s);
      } else {
        used += offer(s, ground, offers);
      }
    }
    if (!first) add_crumbs(rest, ground, offers);
    return offers;
  }

  /// Ground that all there is of the sort would use.
  double left_ground(int s) const {
    const int n = std::min(most_in_stack(s), at(left_, s));
    return at(left_, s) / n * used_by(s, n);
  }

  void add_crumbs(std::vector<int>& rest, double ground, std::vector<Offer>& offers) const {
    std::stable_sort(rest.begin(), rest.end(),
                     [&](int a, int b) { return sort(a).ground() < sort(b).ground(); });
    double used = 0;
    for (const int s : rest) {
      if (used > kCrumbs * ground || rest.size() > 40) return;
      const bool company = std::none_of(offers.begin(), offers.end(), [&](const Offer& offer) {
        return apart(*job_, sort(s), sort(offer.sort));
      });
      if (company) used += offer(s, kCrumbs * ground, offers);
    }
  }

  int most_by_mass(int s, int stack) const {
    const double kg = size(s, stack).mass.kg();
    const double most = (room_.most_kg + kMassRounding) / std::max(1e-9, kg);
    return static_cast<int>(std::clamp(most, 0.0, 1e6));
  }

  double offer(int s, double ground, std::vector<Offer>& offers) const {
    const int most = std::min(most_in_stack(s), at(left_, s));
    double used = 0;
    const auto one = [&](int stack, int count) {
      if (stack == 0 || count == 0) return;
      packing::Item item;
      item.shape = at(sort(s).stacks, stack - 1).footprint;
      const double room = ground_used(item.shape, room_.gap);
      item.count = std::min(count, static_cast<int>(1.2 * ground / room) + 1);
      item.count = std::min(item.count, most_by_mass(s, stack));
      item.turns_deg = sort(s).turns;
      item.value = stack * at(job_->worth, s) * at(supply_->price, s);
      used += item.count * used_by(s, stack);
      offers.push_back({s, stack, std::move(item)});
    };
    one(most, at(left_, s) / most);
    if (at(left_, s) / most * most < at(left_, s)) one(at(left_, s) % most, 1);
    return used;
  }

  /// The gap of the whole shelf, and the halos of the runny pieces where there are others too.
  void set_gaps(std::vector<Offer>& offers, packing::Problem& problem) const {
    const auto runny = [&](const Offer& offer) { return sort(offer.sort).runny; };
    problem.gap = room_.gap;
    if (room_.runny_gap <= room_.gap) return;
    if (runny_set_ || std::all_of(offers.begin(), offers.end(), runny)) {
      problem.gap = room_.runny_gap;
      return;
    }
    for (Offer& offer : offers) {
      if (runny(offer)) offer.item.halo = room_.runny_gap - room_.gap;
    }
  }

  double mass_of(const std::vector<Offer>& offers, const packing::Place& place) const {
    const Offer& offer = at(offers, place.item);
    return size(offer.sort, offer.stack).mass.kg();
  }

  bool too_heavy(const std::vector<Offer>& offers, const packing::Packing& packing) const {
    if (std::isinf(room_.most_kg)) return false;
    double kg = 0;
    for (const packing::Place& place : packing.places) kg += mass_of(offers, place);
    return kg > room_.most_kg + kMassRounding;
  }

  void keep_by_mass(const std::vector<Offer>& offers, packing::Packing& packing) const {
    const auto rate = [&](const packing::Place& place) {
      return at(offers, place.item).item.value / std::max(1e-9, mass_of(offers, place));
    };
    std::stable_sort(
        packing.places.begin(), packing.places.end(),
        [&](const packing::Place& a, const packing::Place& b) { return rate(a) > rate(b); });
    double left = room_.most_kg + kMassRounding;
    std::erase_if(packing.places, [&](const packing::Place& place) {
      const double kg = mass_of(offers, place);
      if (kg > left) return true;
      left -= kg;
      return false;
    });
    packing.orderly = false;
    packing.pattern.clear();
  }

  /// Packs the items of which there are any; places name the items as they were.
  static packing::Packing without_none(packing::Problem problem, const packing::Options& options,
                                       Memory& memory) {
    std::vector<int> kept;
    std::vector<packing::Item> items;
    for (int i = 0; i < count_of(problem.items); ++i) {
      if (at(problem.items, i).count == 0) continue;
      kept.push_back(i);
      items.push_back(at(problem.items, i));
    }
    if (items.empty()) return {};
    problem.items = std::move(items);
    packing::Packing packing = memory.pack(problem, options);
    for (packing::Place& place : packing.places) place.item = at(kept, place.item);
    return packing;
  }

  void pack(std::vector<Offer> offers) {
    std::erase_if(offers, [](const Offer& offer) { return offer.item.count == 0; });
    if (offers.empty()) return;
    packing::Problem problem;
    problem.region = room_.ground;
    set_gaps(offers, problem);
    double largest = 0;
    for (const Offer& offer : offers) largest = std::max(largest, offer.item.value);
    for (Offer& offer : offers) {
      offer.item.value /= largest;
      problem.items.push_back(offer.item);
    }
    packing::Options options;
    options.seed = care_.seed;
    options.effort = packing::Effort::glance;
    if (care_.steps > 0) {
      options.effort = packing::Effort::quick;
      options.steps = care_.steps;
    }
    Memory own;
    Memory& memory = care_.memory != nullptr ? *care_.memory : own;
    packing::Packing packing = memory.pack(problem, options);
    if (too_heavy(offers, packing)) {
      // Of what would stand there, what is worth most for its weight; then that has the shelf.
      keep_by_mass(offers, packing);
      for (packing::Item& item : problem.items) item.count = 0;
      for (const packing::Place& place : packing.places) ++at(problem.items, place.item).count;
      packing::Packing again = without_none(problem, options, memory);
      if (again.places.size() == packing.places.size()) packing = std::move(again);
    }
    if (filled_.set.empty() && packing.orderly) filled_.pattern = packing.pattern;
    for (const packing::Place& place : packing.places) {
      const Offer& offer = at(offers, place.item);
      add({offer.sort, offer.stack, place.at});
    }
  }

  const Job* job_;
  const Supply* supply_;
  Care care_;
  Room room_;
  std::vector<int> left_;
  Filled filled_;
  bool in_order_;
  double free_;           ///< ground still free, roughly
  double ground_per_kg_;  ///< mm² of the shelf's ground for a kg that it may bear; 0 = any weight
  bool runny_set_ = false;
};

}  // namespace

Filled fill(const Job& job, const Supply& supply, const Room& room, const Care& care) {
  if (!care.both) return Filling{job, supply, room, care, false}.run();
  Care glance = care;
  glance.steps = 0;
  Filled together = Filling{job, supply, room, glance, false}.run();
  Filled in_order = Filling{job, supply, room, glance, true}.run();
  const bool order = in_order.worth > together.worth;
  Filled best = order ? std::move(in_order) : std::move(together);
  if (care.steps == 0) return best;
  Filled careful = Filling{job, supply, room, care, order}.run();
  return careful.worth > best.worth ? careful : best;
}

double mass_of(const Job& job, const Filled& filled) {
  double kg = 0;
  for (const Standing& one : filled.set) {
    kg += at(at(job.sorts, one.sort).stacks, one.stack - 1).mass.kg();
  }
  return kg;
}

bool fits(const Job& job, const Sort& sort, const Room& room) {
  if (!may_stand(job, sort, 1, room)) return false;
  packing::Problem problem;
  problem.region = room.ground;
  problem.gap = sort.runny ? std::max(room.gap, room.runny_gap) : room.gap;
  packing::Item item;
  item.shape = sort.stacks.front().footprint;
  item.turns_deg = sort.turns;
  problem.items = {item};
  return packing::fits_alone(problem, 0);
}

}  // namespace placer::loading
