#include "placer/model/ware.h"

namespace placer {
namespace {

double length_at(const Shrinkage& shrinkage, Stage stage) {
  const double dry = 1 - shrinkage.drying;
  switch (stage) {
    case Stage::thrown:
      return 1;
    case Stage::dry:
      return dry;
    case Stage::bisque:
      return dry * (1 - shrinkage.to_bisque);
    case Stage::fired:
      break;
  }
  return dry * (1 - shrinkage.to_fired);
}

double mass_at(const Clay& clay, Stage stage) {
  switch (stage) {
    case Stage::thrown:
      return 1 + clay.water_when_thrown;
    case Stage::dry:
      return 1;
    case Stage::bisque:
    case Stage::fired:
      break;
  }
  return 1 - clay.loss_on_ignition;
}

}  // namespace

double scale(const Shrinkage& shrinkage, Stage from, Stage to) {
  return length_at(shrinkage, to) / length_at(shrinkage, from);
}

double mass_scale(const Clay& clay, Stage from, Stage to) {
  return mass_at(clay, to) / mass_at(clay, from);
}

}  // namespace placer
