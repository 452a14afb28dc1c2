/// @file discs.h
/// Equal discs and nothing else: the energy of relax.h in flat arrays, settled all over or only
/// round about the places that were changed, so that a move among hundreds costs what it costs
/// among forty.
#pragma once

#include <cstdint>
#include <vector>

#include "packing/bodies.h"
#include "packing/descent.h"
#include "placer/base/random.h"

namespace placer::packing {

class Discs {
 public:
  /// @param kind must be round
  /// @param slack mm added to every distance asked for, so that the answer has it to spare
  Discs(const Kind& kind, const Scene& scene, double slack);

  void set(const std::vector<Point>& middles);
  const std::vector<Point>& middles() const { return at_; }
  int size() const { return static_cast<int>(at_.size()); }

  /// Moves all downhill. @return the energy left
  double relax(int iterations, double enough);
  /// The same with much patience, for what is nearly settled.
  double relax_long(double enough);
  /// Moves only those within `far` of either point. @return the energy left, of all
  double relax_near(Point a, Point b, double far, int iterations, double enough);
  /// Of all as they stand; strain() is each one's share then (pairs count for both).
  double energy();
  const std::vector<double>& strain() const { return strain_; }
  /// How things stood before a move that is taken back.
  void set_back(const std::vector<Point>& middles, const std::vector<double>& strain);
  /// What one there would add; disc `except` is looked through. Stops counting at `cap`.
  double strain_at(Point p, int except, double cap);
  /// The best of random spots, each good one slid downhill for a few steps.
  Point emptiest(int except, int samples, Random& random);

  void move(int i, Point p);
  double pitch() const { return pitch_; }  ///< from middle to middle of two that touch

  /// Steps done, about one a nanosecond.
  std::uint64_t work() const { return work_ + descent_.work(); }
  void add_work(std::uint64_t steps) { work_ += steps; }

 private:
  friend class Descent;
  struct Near {
    int a, b;  // b < 0: disc -1 - b, which does not move
  };
  double evaluate(double* slope);
  void taken_back() {}
  double settle_active(int iterations, double enough, double stuck = 0.9);
  void list_near();
  bool list_is_stale() const;
  void fill_cells();
  bool clear_of_edges(Point p) const;
  double edge_energy(Point p, double* push) const {
    return clear_of_edges(p) ? 0 : edge_press(p, push);
  }
  double edge_press(Point p, double* push) const;
  double slide(Point& p, int except, int steps);
  template <class Look>
  void near(Point p, Look look) const;
  int column(double x) const;
  int row(double y) const;

  const Scene* scene_;
  double radius_;  // of one, with the slack: what walls and rim ask for
  double pitch_;
  double round_room_;          // from the round region's middle
  std::vector<double> clear_;  // asked of each obstacle from a middle
  std::vector<Point> at_;
  std::vector<double> strain_;

  std::vector<int> active_;  // the discs that move
  std::vector<int> slot_;    // of each disc among them, -1 = fixed
  std::vector<double> v_, listed_at_;
  std::vector<Near> near_;
  double skin_;
  Descent descent_;

  double cell_ = 1;
  int columns_ = 1, rows_ = 1;
  std::vector<int> head_, next_;
  bool cells_known_ = false;
  std::uint64_t work_ = 0;
};

}  // namespace placer::packing
