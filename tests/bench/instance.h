/// @file instance.h
/// Packing instances as files: tests/data/packing/instances/FORMAT.md says what is in them.
#pragma once

#include <string>
#include <vector>

#include "placer/packing/packing.h"

namespace placer::bench {

struct Instance {
  std::string name;
  std::string objective;  ///< "count", "area" or "bins"
  std::vector<std::string> ids;
  packing::Problem problem;
};

/// @throws std::runtime_error naming what could not be read.
Instance read_instance(const std::string& path);

struct Answer {
  std::vector<packing::Packing> bins;
  int placed = 0;
  int upper_bound = 0;      ///< pieces (count), or bins from below (bins)
  double area_percent = 0;  ///< of the region less nothing: as the references count it
  double seconds = 0;       ///< processor time of the packing
};

Answer solve(const Instance& instance, const packing::Options& options);

/// The places as the instance's format asks for them.
std::string answer_json(const Instance& instance, const Answer& answer);

/// A picture of each bin side by side.
std::string picture_svg(const Instance& instance, const Answer& answer);

}  // namespace placer::bench
