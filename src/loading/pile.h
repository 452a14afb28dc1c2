/// @file pile.h
/// One column of a load, going up.
#pragma once

#include <optional>
#include <vector>

#include "loading/setting.h"

namespace placer::loading {

/// A post at each place, of the parts given for it.
std::vector<PlacedPost> standing_posts(const std::vector<Point>& where,
                                       const std::vector<Parts>& parts);

class Pile;

/// Lets columns that have begun grow until they are done: together, or one after another.
void raise(const std::vector<Pile*>& piles, bool in_turn);

/// Nothing lies over the level: it goes up to the lid.
void open_top(const Kiln& kiln, Level& level);

/// The levels that are set already, bridges among them. A column whose last kept level is a bridge
/// goes on over it where its posts stand on it, and else stays as it is.
void keep_levels(const Job& job, const Kept& kept, std::vector<Pile>& piles, Shed& shed,
                 KilnLoad& load);

class Pile {
 public:
  Pile(const Job& job, const Recipe& recipe, int column, Shed& shed, Supply& supply,
       KilnLoad& load);
  /// A level that is set already; from the bottom up. Its posts and shelf are in use. @param
  /// on_floor the first of them stands on the floor, not on a bridge.
  void keep(const Level& level, bool on_floor = true);
  /// Raises the column from the floor so that posts end at this height; false when it can't, and
  /// then the load is of no use.
  bool raise_to(Length roof, const std::vector<double>& reaches);
  /// Posts alone, from the floor up to that height; false when there are none.
  bool bare_to(Length roof);
  /// The column goes on over a bridge, whose level that is. False when no shelf can lie there.
  bool stand_on(std::size_t bridge, const std::vector<PlacedPost>& feet);
  /// A piece of a kept level is no longer to be set.
  void take_kept(const PlacedPiece& piece);
  /// The column is done.
  void leave() { closed_ = true; }
  int levels() const { return levels_; }
  /// Lays the first shelf, or the next one over those kept.
  void start();
  /// One level more; false when the column is done.
  bool grow();

 private:
  /// The next level in one of the ways it could be made.
  struct Trial {
    Length ceiling;
    const PostHeight* posts = nullptr;  ///< none: this level goes up to the lid
    const Site* above = nullptr;
    double score = 0;  ///< of the level and of all that may come over it
    Filled filled;
  };

  const Site* site_at(Length underside) const;
  Length thickness(const Site& site) const;
  bool begin();
  void begin_under(const Level& level);
  bool go_on();
  std::size_t last_level() const;
  std::optional<std::vector<PlacedPost>> posts_between(const Level& level, Length least);
  bool begin_on_floor(const Site& site);
  void take(const Site& site, Length top);
  bool add_level(int number);
  double mass_left() const;
  Room room_for(int number, Length ceiling, const std::vector<Parts>& parts) const;
  std::vector<Length> heights_worth_trying() const;
  Length roof() const;
  void drop_feet();
  bool needs_shelf() const;
  bool can_close_from(Length top) const;
  void add_closing(int number, std::vector<Trial>& trials);
  std::optional<Trial> with_posts(int number, const PostHeight& posts);
  std::vector<Trial> trials(int number);
  double estimate(int number, Length ceiling) const;
  void try_out(int number, Trial& trial);
  void lower(Trial& trial);
  bool clear_of(const Filled& filled, const std::vector<Parts>& parts) const;
  const Trial* best_of(std::vector<Trial>& trials, int number);
  void look_ahead(double room);
  double prospect(double room, double taken) const;
  bool set(int number, Trial trial);
  void close();
  bool anything_left() const;
  bool fits_above(Length top) const;

  const Job* job_;
  const Recipe* recipe_;
  int column_;
  Shed* shed_;
  Supply* supply_;
  KilnLoad* load_;
  const Site* site_ = nullptr;
  Length top_;
  std::vector<PlacedPost> floor_;
  int levels_ = 0;     ///< the number of the last one
  bool fresh_ = true;  ///< no level yet on the posts that it begins with
  bool closed_ = false;
  std::optional<std::size_t> bridge_;  ///< the level that those stand on; none: the floor
  std::optional<Length> roof_;         ///< where its posts must end
  const std::vector<double>* reaches_ = nullptr;  ///< rooms that posts and shelves fill, to there
  bool reached_ = false;
  std::vector<double> ahead_;  ///< by room to the lid, mm
  double left_ = 0;            ///< worth of all that is left
};

}  // namespace placer::loading
