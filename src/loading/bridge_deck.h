/// @file bridge_deck.h
/// One larger shelf laid across columns, and what stands on it.
#pragma once

#include <optional>
#include <vector>

#include "loading/setting.h"
#include "loading/shed.h"

namespace placer::loading {

constexpr double kOnlyThere = 8;  ///< times the price, of what stands on no other shelf

/// All that laying a shelf changes.
struct Laid {
  Shed shed;
  Supply supply;
  KilnLoad load;
  /// Of each column: the level, a bridge, on which it goes on; none: it has not begun.
  std::vector<std::optional<std::size_t>> bases;
};

/// Whether any sort that needs a bridge is left.
bool any_needs(const Job& job, const Supply& supply);

class Decking {
 public:
  Decking(const Job& job, const Recipe& recipe, int round, Laid& now)
      : job_{&job}, recipe_{&recipe}, round_{round}, now_{&now} {}

  /// Whether one of the sort can stand there.
  bool takes(const Site& site, int sort) const;

  bool may_lie(const Site& site, Length under) const;

  /// Lays the shelf on the posts that end there and sets what stands on it. False when nothing
  /// does.
  bool lay(const Site& site, Length under, int number);

 private:
  /// What may lie over the shelf, one way.
  struct Deck {
    Length ceiling;
    const PostHeight* posts = nullptr;  ///< none: it is open up to the lid
    Filled filled;
    double score = 0;
  };

  const Kiln& kiln() const { return job_->batch->kiln; }
  const std::vector<int>& over(const Site& site) const;
  Length thickness(const Site& site) const;
  Length least_room(const Site& site) const;
  std::vector<Length> heights(const Site& site, Length top) const;
  bool fits_over(Length under) const;
  std::vector<Deck> decks(const Site& site, Length top) const;
  double mass_left() const;
  Supply priced() const;
  void fill_deck(const Site& site, Length top, int number, Care care, Deck& deck) const;
  bool any_over(const Site& site, const Filled& filled) const;
  void set(const Site& site, Length top, int number, const Deck& deck);

  const Job* job_;
  const Recipe* recipe_;
  int round_;
  Laid* now_;
};

}  // namespace placer::loading
