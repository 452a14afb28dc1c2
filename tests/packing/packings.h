/// @file packings.h
/// Problems that the packing tests share, and a look at the answers from outside.
#pragma once

#include <algorithm>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "placer/packing/packing.h"
#include "support/geos_shapes.h"

namespace placer::packing {

inline Item disc_item(double diameter, int count = 1000) {
  Item item;
  item.shape.discs.push_back({{0, 0}, diameter / 2});
  item.count = count;
  return item;
}

/// A disc with one handle along +x.
inline Item mug_item(double diameter, double reach, double width, int count = 1000) {
  Item item = disc_item(diameter, count);
  item.shape.outlines.push_back(rectangle({0, -width / 2}, {diameter / 2 + reach, width / 2}));
  return item;
}

/// Turned by quarters only.
inline Item tile_item(double width, double depth, int count = 1000) {
  Item item;
  item.shape.outlines.push_back(rectangle(width, depth));
  item.turns_deg = {0, 90};
  item.count = count;
  return item;
}

inline Problem in_rectangle(double width, double depth, std::vector<Item> items, double gap = 0,
                            double edge_gap = 0) {
  Problem problem;
  problem.region.outline = rectangle({0, 0}, {width, depth});
  problem.items = std::move(items);
  problem.gap = gap;
  problem.edge_gap = edge_gap;
  return problem;
}

inline Problem in_circle(double diameter, std::vector<Item> items, double gap = 0,
                         double edge_gap = 0) {
  Problem problem;
  problem.region.round = Disc{{0, 0}, diameter / 2};
  problem.items = std::move(items);
  problem.gap = gap;
  problem.edge_gap = edge_gap;
  return problem;
}

/// The least clearance to spare as GEOS sees it, mm; < 0 when something is too near.
inline double seen_by_geos(const Problem& problem, const Packing& packing) {
  double least = std::numeric_limits<double>::infinity();
  std::vector<Footprint> set;
  for (const Place& place : packing.places) {
    const Item& item = problem.items.at(static_cast<std::size_t>(place.item));
    const Footprint shape = placed(item.shape, place.at);
    least = std::min(least, oracle::inset(shape, problem.region) - problem.edge_gap);
    for (const Footprint& keep_out : problem.region.keep_outs) {
      least = std::min(least, oracle::gap(shape, keep_out) - problem.gap - item.halo);
    }
    for (std::size_t j = 0; j < set.size(); ++j) {
      const double halo =
          problem.items.at(static_cast<std::size_t>(packing.places[j].item)).halo + item.halo;
      least = std::min(least, oracle::gap(shape, set[j]) - problem.gap - halo);
    }
    set.push_back(shape);
  }
  return least;
}

constexpr double kSeenShort = -1e-9;  ///< mm; what rounding in two libraries may do

/// Rows of numbers of one of the record tables; lines that do not start with a digit are left out.
inline std::vector<std::vector<double>> record_table(const std::string& name) {
  std::ifstream in{std::string{PLACER_TEST_DATA} + "/packing/records/" + name};
  if (!in) throw std::runtime_error{"no record table " + name};
  std::vector<std::vector<double>> rows;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] < '0' || line[0] > '9') continue;
    std::replace(line.begin(), line.end(), ',', ' ');
    std::istringstream words{line};
    std::vector<double> row;
    for (double v = 0; words >> v;) row.push_back(v);
    rows.push_back(row);
  }
  return rows;
}

inline int count(const Packing& packing) { return static_cast<int>(packing.places.size()); }

}  // namespace placer::packing
