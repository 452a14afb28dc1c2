/// @file wall.h
/// Heat through and into a layered wall, one dimension, fully implicit. Internal to firing.
///
/// Finite volumes from the hot face outwards, fine near the hot face and growing; conductivity at
/// the last step's temperatures. A step is first condensed to a straight line between the hot
/// face's temperature and the flow into it, so that whatever heats the face can be solved for by
/// itself. Why not an adaptive library integrator: the wall is stiff (thin cells beside a day's
/// cooling) and the kiln's control makes the right side jump; one implicit step costs one sweep
/// over some thirty cells and conserves heat exactly.
#pragma once

#include <vector>

#include "placer/firing/materials.h"

namespace placer::firing {

class Wall {
 public:
  /// @param area_m2 of the hot face. The wall widens outwards as that of a cube-like chamber does
  ///   with half of its edges' extra carried (shape factor 0.54 an edge: Holman, from memory);
  ///   `plane` keeps it the same throughout (for tests and half-spaces).
  /// @param loss,store factors on conductivity and on heat capacity, as learnt from a past firing.
  Wall(const std::vector<LayerOf>& layers, double area_m2, Temperature start, bool plane = false,
       double loss = 1, double store = 1);

  /// Flow into the hot face in W as `slope * face - base`, for a step of that many seconds with the
  /// outer face losing to the room. Keeps what finish() needs.
  struct Line {
    double slope = 0;  ///< W/K
    double base = 0;   ///< W
    double flow(double face_celsius) const { return slope * face_celsius - base; }
  };
  Line begin_step(double seconds, Temperature room, double emissivity);
  /// Takes the step with that face temperature.
  void finish_step(double face_celsius);

  double face() const { return face_; }
  Temperature shell() const { return {shell_}; }
  double stored_j() const;                 ///< over the start temperature
  double lost_w() const { return lost_; }  ///< by the outer face in the last step
  /// Temperature between two layers, hot side first. @param layer index of the hotter one
  Temperature between(std::size_t layer) const;
  std::size_t cells() const { return cells_.size(); }

 private:
  struct Cell {
    std::size_t layer = 0;
    double thickness = 0;  ///< m
    double middle = 0;     ///< m from the hot face
    double area = 0;       ///< m2 at its middle
    double capacity = 0;   ///< J/K
    double celsius = 20;
  };
  double conductance_between(std::size_t i) const;  ///< W/K from cell i to i + 1
  double conductance_to_face(std::size_t i, double outer_area) const;

  std::vector<LayerOf> layers_;
  std::vector<Cell> cells_;
  std::vector<double> upper_;  ///< elimination: cell i = upper_[i] * cell i-1 + rest_[i]
  std::vector<double> rest_;
  double area_ = 0, outer_area_ = 0, loss_ = 1;
  double face_ = 20, shell_ = 20, start_ = 20, lost_ = 0;
  double film_ = 10, room_ = 20, last_conductance_ = 0;
};

}  // namespace placer::firing
