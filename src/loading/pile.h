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

class Pile {
 public:
  Pile(const Job& job, const Recipe& recipe, int column, Shed& shed, Supply& supply,
       KilnLoad& load);
  /// A level that is set already; from the bottom up. Its posts and shelf are in use.
  void keep(const Level& level);
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
  void take_kept(const PlacedPiece& piece);
  bool go_on();
  std::size_t last_level() const;
  std::optional<std::vector<PlacedPost>> posts_between(const Level& level, Length least);
  bool begin_on_floor(const Site& site);
  void take(const Site& site, Length top);
  bool add_level(int number);
  double mass_left() const;
  Room room_for(int number, Length ceiling, const std::vector<Parts>& parts) const;
  std::vector<Length> heights_worth_trying() const;
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
  int levels_ = 0;
  bool closed_ = false;
  std::vector<double> ahead_;  ///< by room to the lid, mm
  double left_ = 0;            ///< worth of all that is left
};

}  // namespace placer::loading
