#include "wall.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace placer::firing {
namespace {

constexpr double kFirstCell = 0.0015;  ///< m at the hot face
constexpr double kGrowth = 1.25;
constexpr double kLargestCell = 0.006;

}  // namespace

Wall::Wall(const std::vector<LayerOf>& layers, double area_m2, Temperature start, bool plane,
           double loss, double store)
    : layers_{layers},
      area_{area_m2},
      loss_{loss},
      face_{start.celsius},
      shell_{start.celsius},
      start_{start.celsius} {
  if (layers.empty() || !(area_m2 > 0)) {
    throw std::invalid_argument{"Wall: it needs a layer and an area"};
  }
  const double edge = std::sqrt(area_m2 / 6);
  const auto area_at = [&](double depth) {
    return plane ? area_m2 : area_m2 + 12.96 * edge * depth + 3.6 * depth * depth;
  };
  double depth = 0;
  double size = kFirstCell;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    double left = layers[i].thickness.mm() * 1e-3;
    while (left > 1e-9) {
      const double thickness = left < 1.6 * size ? left : size;
      Cell cell;
      cell.layer = i;
      cell.thickness = thickness;
      cell.middle = depth + thickness / 2;
      cell.area = area_at(cell.middle);
      cell.capacity = layers[i].material->kg_per_m3 * layers[i].material->kj_per_kg_k * 1e3 *
                      store * cell.area * thickness;
      cell.celsius = start.celsius;
      cells_.push_back(cell);
      depth += thickness;
      left -= thickness;
      size = std::min(size * kGrowth, kLargestCell);
    }
  }
  outer_area_ = area_at(depth);
  upper_.resize(cells_.size());
  rest_.resize(cells_.size());
}

double Wall::conductance_to_face(std::size_t i, double face_area) const {
  const Cell& cell = cells_[i];
  const double k = loss_ * layers_[cell.layer].material->conductivity_at(cell.celsius);
  return k * (cell.area + face_area) / 2 / (cell.thickness / 2);
}

double Wall::conductance_between(std::size_t i) const {
  const Cell& a = cells_[i];
  const Cell& b = cells_[i + 1];
  const double ka = loss_ * layers_[a.layer].material->conductivity_at(a.celsius);
  const double kb = loss_ * layers_[b.layer].material->conductivity_at(b.celsius);
  return (a.area + b.area) / 2 / (a.thickness / 2 / ka + b.thickness / 2 / kb);
}

Wall::Line Wall::begin_step(double seconds, Temperature room, double emissivity) {
  const std::size_t n = cells_.size();
  room_ = room.celsius;
  const double rise = std::max(shell_ - room_, 0.5);
  film_ = outer_loss({room_ + rise}, room, emissivity) / rise * outer_area_;
  last_conductance_ = 1 / (1 / film_ + 1 / conductance_to_face(n - 1, outer_area_));
  // From the outside in: each cell as a straight line of its inner neighbour.
  double to_outside = last_conductance_;
  double outside_slope = 0;  // T(i+1) = outside_slope * T(i) + outside_rest
  double outside_rest = room_;
  for (std::size_t i = n; i-- > 0;) {
    const double inward = i == 0 ? conductance_to_face(0, area_) : conductance_between(i - 1);
    const double stored = cells_[i].capacity / seconds;
    const double diagonal = stored + inward + to_outside * (1 - outside_slope);
    upper_[i] = inward / diagonal;
    rest_[i] = (stored * cells_[i].celsius + to_outside * outside_rest) / diagonal;
    outside_slope = upper_[i];
    outside_rest = rest_[i];
    to_outside = inward;
  }
  return {to_outside * (1 - upper_[0]), to_outside * rest_[0]};
}

void Wall::finish_step(double face_celsius) {
  face_ = face_celsius;
  double inner = face_celsius;
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    inner = cells_[i].celsius = upper_[i] * inner + rest_[i];
  }
  lost_ = last_conductance_ * (inner - room_);
  shell_ = room_ + lost_ / film_;
}

double Wall::stored_j() const {
  double sum = 0;
  for (const Cell& cell : cells_) {
    sum += cell.capacity * (cell.celsius - start_);
  }
  return sum;
}

Temperature Wall::between(std::size_t layer) const {
  for (std::size_t i = 0; i + 1 < cells_.size(); ++i) {
    if (cells_[i].layer == layer && cells_[i + 1].layer == layer + 1) {
      const double ka = layers_[layer].material->conductivity_at(cells_[i].celsius);
      const double kb = layers_[layer + 1].material->conductivity_at(cells_[i + 1].celsius);
      const double ga = ka / (cells_[i].thickness / 2);
      const double gb = kb / (cells_[i + 1].thickness / 2);
      return {(ga * cells_[i].celsius + gb * cells_[i + 1].celsius) / (ga + gb)};
    }
  }
  return {face_};
}

}  // namespace placer::firing
