#include "placer/loading/quick.h"

#include <algorithm>

#include "loading/index.h"
#include "placer/packing/packing.h"

namespace placer::loading {
namespace {

constexpr int kMany = 100000;

packing::Effort care(Effort effort) {
  if (effort == Effort::quick) return packing::Effort::glance;
  return effort == Effort::normal ? packing::Effort::quick : packing::Effort::thorough;
}

}  // namespace

ShelfAnswer how_many(const Region& shelf, const Footprint& piece, double gap, Effort effort) {
  packing::Problem problem;
  problem.region = shelf;
  problem.gap = gap;
  packing::Item item;
  item.shape = piece;
  item.count = kMany;
  problem.items = {item};
  ShelfAnswer answer;
  answer.at_most = packing::most_possible(problem);
  problem.items.front().count = std::min(kMany, answer.at_most);
  packing::Options options;
  options.effort = care(effort);
  const packing::Packing packing = packing::most_pieces(problem, options);
  answer.pieces = count_of(packing.places);
  answer.at_most = std::max(answer.at_most, answer.pieces);
  answer.pattern = packing.orderly ? packing.pattern : "";
  for (const packing::Place& place : packing.places) answer.places.push_back(place.at);
  return answer;
}

}  // namespace placer::loading
