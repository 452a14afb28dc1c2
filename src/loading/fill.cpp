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
        free_{free_ground(room)} {}

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

  void add(const Standing& standing) {
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
      return n * at(job_->worth, s) * at(supply_->price, s) /
             ground_used(at(sort(s).stacks, n - 1).footprint, room_.gap);
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
    return at(left_, s) / n * ground_used(at(sort(s).stacks, n - 1).footprint, room_.gap);
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

  double offer(int s, double ground, std::vector<Offer>& offers) const {
    const int most = std::min(most_in_stack(s), at(left_, s));
    double used = 0;
    const auto one = [&](int stack, int count) {
      if (stack == 0 || count == 0) return;
      packing::Item item;
      item.shape = at(sort(s).stacks, stack - 1).footprint;
      const double room = ground_used(item.shape, room_.gap);
      item.count = std::min(count, static_cast<int>(1.2 * ground / room) + 1);
      item.turns_deg = sort(s).turns;
      item.value = stack * at(job_->worth, s) * at(supply_->price, s);
      used += item.count * room;
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

  void pack(std::vector<Offer> offers) {
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
    const packing::Packing packing = memory.pack(problem, options);
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
  double free_;  ///< ground still free, roughly
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
