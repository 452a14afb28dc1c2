#include "placer/model/kiln.h"

#include <algorithm>
#include <limits>

namespace placer {
namespace {

/// kg/m³, the middle of each band.
/// @source cordierite 1800-2400: maker's technical data; high alumina 2100-3200: from shelf weights
///   of 22 lb and 33 lb for 12 x 24 x 1 in given by potters; clay-bonded silicon carbide 2500-2600:
///   from memory, Norton, "Refractories"; nitride-bonded 2770: from 9 lb for 12 x 24 x 5/16 in
double density(ShelfMaterial material) {
  switch (material) {
    case ShelfMaterial::cordierite:
      return 2100;
    case ShelfMaterial::high_alumina:
      return 2650;
    case ShelfMaterial::silicon_carbide:
      return 2550;
    case ShelfMaterial::nitride_bonded_carbide:
      break;
  }
  return 2770;
}

Box chamber_box(const Kiln& kiln) { return bounding_box(kiln.chamber); }

}  // namespace

Mass mass_of(const ShelfKind& shelf) {
  const double volume_m3 = area(shelf.shape) * shelf.thickness.mm() * 1e-9;
  return Mass::from_kg(volume_m3 * density(shelf.material));
}

Zone zone_at(const Kiln& kiln, Length z) {
  if (3 * z < kiln.height) return Zone::low;
  return 3 * z > 2 * kiln.height ? Zone::high : Zone::middle;
}

Side side_at(const Kiln& kiln, Point p) {
  const Box box = chamber_box(kiln);
  return 2 * p.y < box.low.y + box.high.y ? Side::front : Side::back;
}

double most_on_shelf_kg(const Kiln& kiln) {
  const double own =
      kiln.most_on_shelf ? kiln.most_on_shelf->kg() : std::numeric_limits<double>::infinity();
  return std::min(own, most_in_load_kg(kiln));
}

double most_in_load_kg(const Kiln& kiln) {
  return kiln.most_in_load ? kiln.most_in_load->kg() : std::numeric_limits<double>::infinity();
}

}  // namespace placer
