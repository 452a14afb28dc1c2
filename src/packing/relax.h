/// @file relax.h
/// Pieces pushed apart: the sum of squared overlaps made least by L-BFGS with neighbour lists.
#pragma once

#include <cstdint>
#include <vector>

#include "packing/bodies.h"
#include "packing/descent.h"
#include "placer/base/random.h"

namespace placer::packing {

/// A turn's variable is the way that the piece's rim goes, so that it weighs like the others.
inline double lever(const Kind& kind) { return 0.7 * kind.reach; }

/// A moving set of pieces in a scene. Energy is in mm²: the sum of squared shortages of distance,
/// 0 when nothing is too near anything. Allocates only when it grows.
class Relaxer {
 public:
  /// @param slack mm added to every distance asked for, so that the answer has it to spare
  Relaxer(const std::vector<Kind>& kinds, const Scene& scene, double slack);

  void set(const std::vector<Pose>& poses);
  int size() const { return static_cast<int>(kind_.size()); }
  Pose pose(int i) const;
  std::vector<Pose> poses() const;
  void move(int i, const Pose& pose);
  void add(const Pose& pose);
  void remove(int i);  ///< the last takes its number
  void set_slack(double slack) { slack_ = slack; }

  /// Moves everything downhill. Ends early when it is done (below `enough`) or clearly stuck.
  /// @return the energy left
  double relax(int iterations, double enough = 1e-16);
  double energy();
  /// Each piece's share of the energy (pairs count for both), as it stands.
  const std::vector<double>& strain();
  /// What a piece set there would add; piece `except` is looked through. Stops counting at `cap`.
  double strain_at(const Pose& pose, int except, double cap);
  /// The best of random spots for a piece, each good one slid downhill for a few steps.
  /// @param least [out] the strain there
  Pose emptiest(int kind, int except, int samples, Random& random, double& least);

  /// Steps done: grows with the distances measured, about one a nanosecond.
  std::uint64_t work() const { return work_ + descent_.work(); }
  void add_work(std::uint64_t steps) { work_ += steps; }

 private:
  struct Part {
    int first = 0;
    int count = 0;
    Point mid;
    double reach = 0;
  };
  struct Body {  // a piece or an obstacle as set in place
    const Solid* solid = nullptr;
    const std::vector<Part>* parts = nullptr;
    int balls = 0;    // offset into set_balls_
    int corners = 0;  // offset into set_corners_, set_normals_
    int mids = 0;     // offset into set_mids_
    double reach = 0;
    double core = 0;
    bool plain = false;  // one ball about its origin
  };
  struct Pair {
    int a, b;
    double asked;
    double far2;
  };
  struct Pull {  // the gradient for one piece
    double x = 0, y = 0, turn = 0;
    void push(double force, Point n, Point arm) {
      x += force * n.x;
      y += force * n.y;
      turn += force * cross(arm, n);
    }
  };
  struct Press;

  void lay_out();
  void place_body(const Body& body, Point at, Turn turn);
  Body make_body(const Solid& solid, const std::vector<Part>& parts, double reach, bool plain);
  static std::vector<Part> parts_of(const Solid& solid);
  double asked(int a, int b) const;
  void list_pairs();
  void list_near_cells();
  bool list_is_stale() const;
  double evaluate(double* g);
  double edge_energy(int i, Pull* pull);
  double edge_energy_ball(Point at, const Ball& ball, Pull* pull) const;
  double edge_energy_corners(Point at, const Body& body, Pull* pull);
  double pair_energy(const Body& a, const Body& b, Point at_a, Point at_b, double clear, Pull* pa,
                     Pull* pb);
  double core_strain(const Pose& pose, int except, double cap);
  bool near_part(const Body& body, std::size_t k, const Ball& ball, double clear) const;
  Touch touch_part(const Body& body, std::size_t k, const Ball& ball);
  Touch touch_parts(const Body& a, std::size_t k, const Body& b, std::size_t m);
  double disc_energy(const Pair& pair, Point between, double d2);
  double listed_energy(const Pair& pair);
  double slide(Pose& pose, int except, int steps);
  double one_energy(const Body& body, int kind, Point at, int except, double cap, Pull* pull);
  Point centre(int i) const;
  double lever_of(int i) const {
    return lever((*kinds_)[static_cast<std::size_t>(kind_[static_cast<std::size_t>(i)])]);
  }
  /// What is set in place may be a trial that was not kept.
  void taken_back() { listed_ = false; }
  friend class Descent;

  const std::vector<Kind>* kinds_;
  const Scene* scene_;
  double slack_;
  std::uint64_t work_ = 0;
  double least_reach_ = 0;

  std::vector<std::vector<Part>> kind_parts_;
  std::vector<std::vector<Part>> obstacle_parts_;
  std::vector<Body> obstacles_;
  std::vector<Body> trials_;  // one a kind: a piece being tried
  std::vector<Ball> set_balls_;
  std::vector<Point> set_corners_, set_normals_, set_mids_;
  std::size_t fixed_balls_ = 0, fixed_corners_ = 0, fixed_mids_ = 0;

  std::vector<int> kind_;
  std::vector<Body> body_;
  std::vector<double> turn_;  // radians, of pieces that do not turn freely too
  std::vector<int> turner_;   // index of the turning variable, -1 = none
  std::vector<double> v_, listed_at_;
  Descent descent_;
  int variables_ = 0;
  std::vector<Pair> pairs_;
  std::vector<int> cell_head_, cell_next_;
  double skin_ = 0;
  bool listed_ = false;
  std::vector<Pull> pull_;
  std::vector<double> strain_;
  bool count_strain_ = false;
};

}  // namespace placer::packing
